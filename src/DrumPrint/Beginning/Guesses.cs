using System.Globalization;
using DrumPrint.Aligning;
using DrumPrint.Dsp.Alignment;
using DrumPrint.Language;
using DrumPrint.Listening;

namespace DrumPrint.Beginning;

/// <summary>Names, polarities and delays for all files that could be told.</summary>
internal static class Guesses
{
    // Below this the first notch of two microphones at one drum lies above 1 kHz: polarity first, time only then.
    private const double WorthwhileMs = 0.5;
    private const int FewestDrums = 2;

    public static IReadOnlyList<Guess> Of(IReadOnlyList<Guess> told, Func<int, Guess> at, IReadOnlyList<HeardPair> pairs)
    {
        var inverted = told.ToDictionary(g => g, _ => false);
        var delays = told.ToDictionary(g => g, _ => 0.0);
        var evidence = told.ToDictionary(g => g, _ => new List<string>());
        foreach (var drum in pairs.Where(p => p.Kind == MicrophoneKind.SameDrum).GroupBy(p => p.Reference))
        {
            var reference = at(drum.Key);
            foreach (var pair in drum.Where(p => at(p.Other) != reference))
            {
                var other = at(pair.Other);
                var polarity = pair.Found.PolarityAtDrum;
                inverted[other] = polarity == PairPolarity.Opposite;
                evidence[other].Add(Said(pair, polarity));
            }

            var late = drum.Where(p => p.Found.IsDelayKnown && p.Found.PolarityAtDrum == PairPolarity.Same && Math.Abs(p.Found.DelayMs) >= WorthwhileMs).ToList();
            var latest = Math.Max(0, late.Select(p => p.Found.DelayMs).DefaultIfEmpty().Max());
            if (latest >= WorthwhileMs)
            {
                var last = late.MaxBy(p => p.Found.DelayMs)!;
                delays[reference] = Math.Round(latest, 2);
                evidence[reference].Add(string.Create(CultureInfo.InvariantCulture, $"meets {at(last.Other).Track}, {last.Found.DelayFrames:0.0} ± {last.Found.SpreadFrames:0.0} frames later over {Words.Count(last.Found.Hits, "hit")}"));
            }

            foreach (var early in late.Where(p => p.Found.DelayMs < 0 && latest - p.Found.DelayMs >= WorthwhileMs))
            {
                delays[at(early.Other)] = Math.Round(latest - early.Found.DelayMs, 2);
                evidence[at(early.Other)].Add(string.Create(CultureInfo.InvariantCulture, $"meets the others, {early.Found.DelayFrames:0.0} ± {early.Found.SpreadFrames:0.0} frames earlier"));
            }
        }

        Above(at, pairs, inverted, evidence);
        return [.. told.Select(g => g with { IsInverted = inverted[g], DelayMs = delays[g], Evidence = string.Join("; ", evidence[g]) })];
    }

    // An overhead that hears two drums upside down and none upright is upside down itself.
    private static void Above(Func<int, Guess> at, IReadOnlyList<HeardPair> pairs, Dictionary<Guess, bool> inverted, Dictionary<Guess, List<string>> evidence)
    {
        foreach (var above in pairs.Where(p => p.Kind == MicrophoneKind.Overhead && p.Found.Polarity != PairPolarity.CannotBeTold).GroupBy(p => at(p.Other)))
        {
            var opposite = above.Where(p => p.Found.Polarity == PairPolarity.Opposite).Select(p => p.Drum).Distinct().ToList();
            var same = above.Where(p => p.Found.Polarity == PairPolarity.Same).Select(p => p.Drum).Distinct().ToList();
            if (opposite.Count >= FewestDrums && same.Count == 0)
            {
                inverted[above.Key] = true;
                evidence[above.Key].Add($"hears {Show.List(opposite)} upside down");
            }
            else if (opposite.Count > 0)
            {
                evidence[above.Key].Add($"hears {Show.List(opposite)} upside down{(same.Count > 0 ? $" but {Show.List(same)} not" : "")}: listen");
            }
        }
    }

    private static string Said(HeardPair pair, PairPolarity polarity)
    {
        var where = pair.Found.IsDelayKnown ? string.Create(CultureInfo.InvariantCulture, $"{pair.Found.DelayFrames:0.0} ± {pair.Found.SpreadFrames:0.0} frames later") : "delay cannot be told";
        var way = polarity switch
        {
            PairPolarity.Opposite => "the other way up",
            PairPolarity.Same => "the same way up",
            _ => "polarity cannot be told: listen",
        };
        return string.Create(CultureInfo.InvariantCulture, $"{way}, {where}, {Words.Count(pair.Found.Hits, "hit")}, bodies add up by {pair.Found.BodyAgreement:0.0}");
    }
}
