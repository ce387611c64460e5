using DrumPrint.Chains;
using DrumPrint.Comparing.Measuring;

namespace DrumPrint.Comparing.Pairs;

/// <summary>The stretch of song that is compared.</summary>
/// <param name="FromFrame">Song time of its first frame, in A.</param>
/// <param name="Frames">Length.</param>
/// <param name="RateHz">Frames in a second.</param>
/// <param name="How">How it was chosen.</param>
/// <param name="Tempo">Bars and beats; null when unknown.</param>
public sealed record Passage(long FromFrame, int Frames, int RateHz, PassageChoice How, TempoMap? Tempo)
{
    /// <summary>Length of a passage that is found, in seconds.</summary>
    public const double FoundSeconds = 12;

    /// <summary>The longest passage, in seconds.</summary>
    public const double LongestSeconds = 60;

    private const double RunUpSeconds = 0.1;

    public double FromS => (double)FromFrame / RateHz;

    public double ToS => (double)(FromFrame + Frames) / RateHz;

    /// <summary>First bar; null when bars are unknown.</summary>
    public int? FromBar => Tempo is { } map ? (int)Math.Floor(map.BarAtSeconds(FromS) + 1e-6) : null;

    /// <summary>Last bar; null when bars are unknown.</summary>
    public int? ToBar => Tempo is { } map ? (int)Math.Ceiling(map.BarAtSeconds(ToS) - 1e-6) - 1 : null;

    /// <summary>The place in words.</summary>
    public string Words
    {
        get
        {
            var time = FormattableString.Invariant($"{FromS:0.00} s to {ToS:0.00} s");
            return FromBar is { } first ? first == ToBar ? $"bar {first} ({time})" : $"bars {first} to {ToBar} ({time})" : time;
        }
    }

    /// <summary>The stretch that was asked for.</summary>
    internal static Passage Asked(double? fromS, double? toS, long start, long end, int rateHz, TempoMap? tempo)
    {
        var from = fromS is { } f ? (long)Math.Round(f * rateHz) : start;
        var to = toS is { } t ? (long)Math.Round(t * rateHz) : end;
        if (fromS is not null && (from < start || from >= end))
        {
            throw new UsageException(FormattableString.Invariant($"--from: both sides have sound from {(double)start / rateHz:0.###} s to {(double)end / rateHz:0.###} s."));
        }

        if (toS is not null && (to > end || to <= start))
        {
            throw new UsageException(FormattableString.Invariant($"--to: both sides have sound from {(double)start / rateHz:0.###} s to {(double)end / rateHz:0.###} s."));
        }

        if (to <= from)
        {
            throw new UsageException("--to lies before --from; there is nothing to compare.");
        }

        return to - from <= LongestSeconds * rateHz
            ? new Passage(from, (int)(to - from), rateHz, PassageChoice.Asked, tempo)
            : throw new UsageException(FormattableString.Invariant($"--from, --to: a passage is at most {LongestSeconds:0} s long; this one is {(double)(to - from) / rateHz:0.0} s. Ears forget sooner than that."));
    }

    /// <summary>The 12 s with the most hits in a side; of equals the loudest.</summary>
    internal static Passage Busiest(SideFile side, long start, long end, TempoMap? tempo)
    {
        var rate = side.Info.SampleRate;
        var frames = end - start;
        var wanted = (int)(FoundSeconds * rate);
        if (frames <= wanted)
        {
            return new Passage(start, (int)frames, rate, PassageChoice.Whole, tempo);
        }

        var slices = side.Slices(start, frames);
        var hits = Onsets.Find(slices);
        var length = (int)(FoundSeconds * Onsets.SlicesPerSecond);
        var last = slices.Length - length;
        var runUp = (int)(RunUpSeconds * Onsets.SlicesPerSecond);
        var sums = new double[slices.Length + 1];
        for (var i = 0; i < slices.Length; i++)
        {
            sums[i + 1] = sums[i] + slices[i];
        }

        // Without hits every second is a candidate, and the loudest one is left.
        var starts = hits.Count > 0
            ? hits.Select(h => Math.Clamp(h - runUp, 0, last))
            : Enumerable.Range(0, (last / Onsets.SlicesPerSecond) + 1).Select(s => s * Onsets.SlicesPerSecond);
        var best = starts
            .Select(s => (Start: s, Count: Count(hits, s, s + length), Energy: sums[s + length] - sums[s]))
            .Aggregate((a, b) => b.Count > a.Count || (b.Count == a.Count && b.Energy > a.Energy) ? b : a);
        return new Passage(start + Onsets.FrameAt(best.Start, rate), wanted, rate, PassageChoice.Busiest, tempo);
    }

    private static int Count(IReadOnlyList<int> hits, int from, int to) => hits.Count(h => h >= from && h < to);
}

/// <summary>How a passage was chosen.</summary>
public enum PassageChoice
{
    /// <summary>By the user.</summary>
    Asked,

    /// <summary>The 12 s with the most hits.</summary>
    Busiest,

    /// <summary>There is no more than that.</summary>
    Whole,
}
