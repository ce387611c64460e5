using DrumPrint.Comparing.Measuring;
using DrumPrint.Dsp.Alignment;
using DrumPrint.Language;

namespace DrumPrint.Comparing.Pairs;

/// <summary>Says in a paragraph, and at its shortest in a line, what a comparison measured, and nothing else.</summary>
internal static class ComparisonVerdict
{
    private const double LevelWorthDb = 0.1;
    private const double WorthDb = 0.5;
    private const double GainWorthDb = 0.005;
    private const double TenthDb = 0.1;

    // Of the energy of the whole; 0.04 dB.
    private const double RegionWorth = 0.01;

    /// <summary>The whole of it.</summary>
    public static string Of(Comparison comparison) => string.Join(" ", [.. Before(comparison), Line(comparison), .. After(comparison)]);

    /// <summary>What matters most, in one line.</summary>
    public static string Line(Comparison comparison)
    {
        if (comparison.Null.IsIdentical)
        {
            var place = comparison.Passage.Words;
            var print = comparison.Title.Length > 0 ? $"In {comparison.Title} " : "";
            return comparison.LeftOut is { } part
                ? $"'{part}' changes nothing in {place}: every sample is the same with it and without it, the null is −∞."
                : $"{print}A and B are identical: every sample of {place} is the same, the null is −∞.";
        }

        if (Silent(comparison) is { } side)
        {
            return $"{side} is silent in {comparison.Passage.Words}, so there is nothing to compare.";
        }

        return comparison.Null.IsPureGain ? PureGain(comparison) : Difference(comparison);
    }

    /// <summary>All but that line; empty when there is no more to say.</summary>
    public static string Rest(Comparison comparison) => string.Join(" ", Before(comparison).Concat(After(comparison)));

    private static IEnumerable<string> Before(Comparison comparison)
    {
        if (comparison.Addition is { TotalDb: > double.NegativeInfinity } addition && !comparison.Null.IsIdentical)
        {
            yield return Adds(comparison, addition);
        }

        foreach (var sentence in PlaceVerdict.Delay(comparison))
        {
            yield return sentence;
        }
    }

    private static IEnumerable<string> After(Comparison comparison)
    {
        if (comparison.Null.IsIdentical)
        {
            return Identical(comparison);
        }

        if (Silent(comparison) is not null)
        {
            return [];
        }

        return comparison.Null.IsPureGain ? [LeftOfPureGain(comparison)] : Different(comparison);
    }

    private static string? Silent(Comparison comparison) =>
        double.IsInfinity(comparison.A.Measures.RmsDbfs) ? "A" : double.IsInfinity(comparison.B.Measures.RmsDbfs) ? "B" : null;

    private static IEnumerable<string> Identical(Comparison comparison)
    {
        if (comparison.LeftOut is not null)
        {
            if (comparison.Passage.How != PassageChoice.Whole)
            {
                yield return "Elsewhere it may.";
            }

            yield break;
        }

        yield return "Whatever is heard between them does not come from the sound.";
        if (comparison.IsWholeIdentical is { } isWhole)
        {
            yield return isWhole ? "The whole files hold the same sound too." : "Elsewhere the files differ.";
        }
    }

    private static string PureGain(Comparison comparison)
    {
        var isTurned = comparison.Alignment.IsInverted;
        var gain = -comparison.Null.BestGainDb;
        if (Math.Abs(gain) < GainWorthDb)
        {
            return isTurned ? "B is A with its polarity turned over and nothing else." : "B is A but for rounding.";
        }

        return $"B is A turned {(gain > 0 ? "up" : "down")} by {Words.Number(Math.Abs(gain), 2)} dB{(isTurned ? " and its polarity turned over" : "")}, and nothing else.";
    }

    private static string LeftOfPureGain(Comparison comparison)
    {
        var gain = -comparison.Null.BestGainDb;
        var left = $"With levels matched to the last digit, what is left lies {Words.Number(-comparison.Null.BestRmsDb, 0)} dB below A in {comparison.Passage.Words}.";
        return Math.Abs(gain) < GainWorthDb ? left : $"{left} The one is {(gain > 0 ? "louder" : "softer")} than the other, not better.";
    }

    private static string Difference(Comparison comparison)
    {
        var matched = comparison.Matching.Metric switch
        {
            LevelMatch.TrueLevel => "As they are",
            LevelMatch.Rms => "At equal mean level",
            _ => "At equal loudness",
        };
        return $"A and B differ in more than level. {matched} the difference is {Words.Number(Math.Abs(comparison.Null.RmsDb))} dB {(comparison.Null.RmsDb <= 0 ? "quieter" : "louder")} than A.";
    }

    private static IEnumerable<string> Different(Comparison comparison)
    {
        if (!comparison.Alignment.IsTelling)
        {
            yield return $"Their waves have next to nothing in common (correlation {Words.Number(comparison.Alignment.Correlation, 2)}), so the depth of the null says little: they may be other drums, or another take.";
        }

        if (PlaceVerdict.Place(comparison.Alignment) is { } place)
        {
            yield return place;
        }

        yield return Level(comparison);
        if (comparison.Alignment.IsInverted)
        {
            yield return "B's polarity is the opposite of A's; it was turned back for the null.";
        }

        yield return Spectrum(comparison.ThirdOctaves);
        if (Hits(comparison.Hits) is { } hits)
        {
            yield return hits;
        }

        if (Shape(comparison) is { } shape)
        {
            yield return shape;
        }

        yield return "Numbers can't say which is better. Listen blind.";
    }

    private static string Level(Comparison comparison)
    {
        var matching = comparison.Matching;
        var difference = matching.B - matching.A;
        var unit = matching.Metric == LevelMatch.Rms ? "dB" : "LU";
        var metric = matching.Metric == LevelMatch.Rms ? "mean level" : "gated loudness";
        var at = comparison.Passage.Words;
        var louder = !double.IsFinite(difference)
            ? $"Over {at} no level can be stated for both sides (too short or too quiet for {metric})"
            : Math.Abs(difference) < LevelWorthDb
            ? $"Over {at} A and B are equally loud within {Words.Number(LevelWorthDb)} {unit} ({metric})"
            : $"Over {at} B is {Words.Number(Math.Abs(difference), 2)} {unit} {(difference > 0 ? "louder" : "softer")} than A ({metric})";
        var trim = matching.TrimDb == 0 ? "" : $", {Words.Signed(matching.TrimDb, 2)} dB given to B by hand in that";
        return matching.Metric == LevelMatch.TrueLevel
            ? $"{louder}; nothing was matched, so the louder one has the advantage in all that follows."
            : $"{louder}, so {matching.TurnedDown}{trim}.";
    }

    private static string Spectrum(IReadOnlyList<ThirdOctave> bands)
    {
        var known = bands.Where(b => b.DifferenceDb is not null).ToList();
        var most = known.Where(b => AsShown(b) >= WorthDb).MaxBy(b => b.DifferenceDb);
        var least = known.Where(b => AsShown(b) <= -WorthDb).MinBy(b => b.DifferenceDb);
        var parts = new List<string>();
        foreach (var band in new[] { most, least }.OfType<ThirdOctave>())
        {
            parts.Add($"{(band.DifferenceDb > 0 ? "more" : "less")} at {Words.Frequency(band.NominalHz)} ({Words.Signed(band.DifferenceDb!.Value)} dB)");
        }

        return parts.Count == 0
            ? "Tone: no band differs by 0.5 dB or more."
            : $"Tone: B has {string.Join(" and ", parts)}.";
    }

    // The table beside the sentence shows a tenth.
    private static double AsShown(ThirdOctave band) => Math.Round(band.DifferenceDb!.Value, 1, MidpointRounding.AwayFromZero);

    private static string? Hits(HitDifference hits)
    {
        if (hits.Count == 0 || hits.AttackDb is not { } attack)
        {
            return null;
        }

        var first = $"Attack ({Words.Count(hits.Count, "hit")})";
        if (hits.SustainDb is not { } sustain)
        {
            return $"{first} {Change(attack)}; no hit has room for a sustain.";
        }

        var second = $"sustain ({Words.Count(hits.SustainCount, "hit")})";
        return Math.Abs(attack) < WorthDb && Math.Abs(sustain) < WorthDb
            ? $"{first} and {second} {Change(0)}."
            : $"{first} {Change(attack)}, {second} {Change(sustain)}.";
    }

    private static string Change(double db) => Math.Abs(db) < WorthDb ? "within 0.5 dB" : $"{Words.Number(Math.Abs(db))} dB {(db > 0 ? "stronger" : "weaker")}";

    private static string? Shape(Comparison comparison)
    {
        var (a, b) = (comparison.A.Measures, comparison.B.Measures);
        var parts = new List<string>();
        var crest = b.CrestDb - a.CrestDb;
        if (Math.Abs(crest) >= WorthDb)
        {
            parts.Add($"its peaks stand {Words.Number(Math.Abs(crest))} dB {(crest > 0 ? "higher" : "lower")} over its mean level");
        }

        var width = b.WidthDb - a.WidthDb;
        if (double.IsNegativeInfinity(b.WidthDb) && !double.IsNegativeInfinity(a.WidthDb))
        {
            parts.Add("it is mono, and A is not");
        }
        else if (double.IsNegativeInfinity(a.WidthDb) && !double.IsNegativeInfinity(b.WidthDb))
        {
            parts.Add("it is stereo, and A is mono");
        }
        else if (double.IsFinite(width) && Math.Abs(width) >= WorthDb)
        {
            parts.Add($"it is {(width > 0 ? "wider" : "narrower")} (side against middle {Words.Signed(width)} dB)");
        }

        var loss = b.MonoLossDb - a.MonoLossDb;
        if (double.IsPositiveInfinity(b.MonoLossDb) && !double.IsPositiveInfinity(a.MonoLossDb))
        {
            parts.Add("it vanishes in mono");
        }
        else if (double.IsPositiveInfinity(a.MonoLossDb) && !double.IsPositiveInfinity(b.MonoLossDb))
        {
            parts.Add("A vanishes in mono, and it does not");
        }
        else if (double.IsFinite(loss) && Math.Abs(loss) >= WorthDb)
        {
            parts.Add($"in mono it loses {Words.Number(Math.Abs(loss))} dB {(loss > 0 ? "more" : "less")}");
        }

        return parts.Count == 0 ? null : $"B against A: {string.Join(", ", parts)}.";
    }

    private static string Adds(Comparison comparison, Addition addition)
    {
        var what = $"At true level '{addition.What}'";
        var print = comparison.Title.Length > 0 ? comparison.Title : "the whole";
        var total = addition.TotalDb;
        var change = Math.Abs(total) < TenthDb / 2
            ? $"{what} keeps the mean level of {print} within {Words.Number(TenthDb)} dB"
            : $"{what} makes {print} {Words.Number(Math.Abs(total))} dB {(total > 0 ? "stronger" : "weaker")} in mean level";
        var regions = addition.Regions.Where(r => Math.Abs(r.Added) >= RegionWorth).ToList();
        if (regions.Count == 0)
        {
            return $"{change}.";
        }

        // A share of what is added is one only where nothing is taken away.
        if (regions.Any(r => r.Added > 0) && regions.Any(r => r.Added < 0))
        {
            return $"{change}: it adds energy {Names(regions.Where(r => r.Added > 0))} and takes some away {Names(regions.Where(r => r.Added < 0))}.";
        }

        var most = regions.MaxBy(r => Math.Abs(r.Added));
        var share = 100 * most.Added / regions.Sum(r => r.Added);
        return $"{change}; {(share > 99.5 ? "all" : $"{Words.Number(share, 0)} %")} of the energy it {(most.Added > 0 ? "adds" : "takes away")} lies {most.Name}.";
    }

    private static string Names(IEnumerable<(string Name, double Added)> regions) => string.Join(" and ", regions.Select(r => r.Name));
}
