using DrumPrint.Audio;
using DrumPrint.Comparing.Measuring;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Comparing.Pairs;

/// <summary>Lines two files up, matches them and measures what differs.</summary>
internal static class PairMeasurement
{
    /// <summary>Where both sides have sound, in song time.</summary>
    /// <exception cref="UsageException">The sides do not overlap or have different sample rates.</exception>
    public static (long Start, long End) Overlap(SideFile a, SideFile b)
    {
        if (a.Info.SampleRate != b.Info.SampleRate)
        {
            throw new UsageException($"A ({a.Name}) is at {a.Info.SampleRate} Hz, B ({b.Name}) at {b.Info.SampleRate} Hz. Both sides need one rate; converting one would be part of the difference.");
        }

        var (start, end) = (Math.Max(a.StartFrame, b.StartFrame), Math.Min(a.EndFrame, b.EndFrame));
        return end > start
            ? (start, end)
            : throw new UsageException($"A ({a.Name}) and B ({b.Name}) share no moment of the song, or one of them is empty.");
    }

    /// <summary>The passage asked for, or the busiest one of A.</summary>
    public static Passage Choose(SideFile a, SideFile b, ComparisonOptions options)
    {
        var (start, end) = Overlap(a, b);
        var tempo = a.Tempo ?? b.Tempo;
        var (from, to) = (options.From(tempo), options.To(tempo));
        return from is null && to is null
            ? Passage.Busiest(a, start, end, tempo)
            : Passage.Asked(from, to, start, end, a.Info.SampleRate, tempo);
    }

    /// <summary>Measures a pair.</summary>
    /// <param name="title">What is compared.</param>
    /// <param name="a">A.</param>
    /// <param name="b">B.</param>
    /// <param name="passage">Where.</param>
    /// <param name="options">How levels are matched; what was left out of B.</param>
    public static Comparison Of(string title, SideFile a, SideFile b, Passage passage, ComparisonOptions options)
    {
        Overlap(a, b);
        var reach = Alignment.Reach(passage.RateHz);
        var soundA = a.Read(passage.FromFrame, passage.Frames);
        var wide = b.Read(passage.FromFrame - reach, passage.Frames + (2 * reach));
        var alignment = Alignment.Find(soundA, wide);
        var (first, frames) = Paired(a, b, passage, alignment.DelayFrames);
        var soundB = wide.Slice(reach + alignment.DelayFrames + first, frames);
        var unpaired = passage.Frames - frames;
        if (unpaired > 0)
        {
            soundA = soundA.Slice(first, frames);
            passage = passage with { FromFrame = passage.FromFrame + first, Frames = frames };
            alignment = alignment.Over(soundA, soundB);
        }

        var matching = Matching.Of(soundA, soundB, options.Match, options.TrimDb);
        var (matchedA, matchedB) = (soundA.Times(Decibels.ToGain(matching.LevelOfADb)), soundB.Times(Decibels.ToGain(matching.LevelOfBDb)));
        var nulls = NullTest.Of(soundA, soundB, alignment.IsInverted ? -1 : 1, matching.Gain, a.Info.Encoding, b.Info.Encoding);
        var (heardA, heardB) = Sound.Together(soundA, soundB);
        return new Comparison
        {
            Title = title,
            A = new ComparedSide(a.Name, SideMeasures.Of(heardA), soundA.Channels.Length) { Sound = soundA },
            B = new ComparedSide(b.Name, SideMeasures.Of(heardB), soundB.Channels.Length) { Sound = soundB },
            Passage = passage,
            Alignment = alignment,
            UnpairedFrames = unpaired,
            Matching = matching,
            Null = nulls with { PeakDbfs = nulls.PeakDbfs + matching.LevelOfADb },
            ThirdOctaves = ThirdOctave.Of(BandPowers.Of(matchedA), BandPowers.Of(matchedB)),
            Hits = HitDifference.Of(matchedA, matchedB),
            GainReductions = Curves(a, b, passage.FromFrame, passage.Frames, passage.RateHz),
            LeftOut = options.Without,
            Addition = options.Without is { } what ? Addition.Of(what, BandPowers.Of(soundA), BandPowers.Of(soundB)) : null,
        };
    }

    /// <summary>Whether two files whose passage is identical are so from end to end; null where that cannot be told.</summary>
    public static bool? IsWhole(Comparison comparison, SideFile a, SideFile b) =>
        !comparison.Null.IsIdentical || comparison.Alignment.DelayFrames != 0 || a.Info.Encoding != b.Info.Encoding
            ? null
            : a.Info.Frames == b.Info.Frames && FileHash.AudioSha256(a.Info.Path) == FileHash.AudioSha256(b.Info.Path);

    // Frames of the passage that both files hold once B is moved: silence put in for a missing frame is no difference.
    private static (int First, int Frames) Paired(SideFile a, SideFile b, Passage passage, int delayFrames)
    {
        var from = Math.Max(passage.FromFrame, Math.Max(a.StartFrame, b.StartFrame - delayFrames));
        var to = Math.Min(passage.FromFrame + passage.Frames, Math.Min(a.EndFrame, b.EndFrame - delayFrames));
        return ((int)(from - passage.FromFrame), (int)(to - from));
    }

    /// <summary>What each processor of either side turned down over a stretch of the song.</summary>
    internal static List<GainReductionCurve> Curves(SideFile a, SideFile b, long fromFrame, int frames, int rateHz)
    {
        var curves = new List<GainReductionCurve>();
        foreach (var key in a.Gains.Concat(b.Gains).Select(g => g.Key).Distinct())
        {
            var (one, other) = (a.Gains.FirstOrDefault(g => g.Key == key), b.Gains.FirstOrDefault(g => g.Key == key));
            var step = (one ?? other)!.StepFrames;
            curves.Add(new GainReductionCurve(key.Bus, key.Processor, key.Ordinal, (double)step / rateHz, Reduction(one, fromFrame, frames), Reduction(other, fromFrame, frames)));
        }

        return curves;
    }

    private static List<double>? Reduction(GainLine? trace, long fromFrame, int frames)
    {
        if (trace is null)
        {
            return null;
        }

        var first = (fromFrame + trace.LatencyFrames) / trace.StepFrames;
        var values = new List<double>();
        for (var i = first; i < first + (frames / trace.StepFrames); i++)
        {
            values.Add(i < trace.LowestGain.Length ? Math.Max(0, -Decibels.FromGain(trace.LowestGain[i])) : 0);
        }

        return values;
    }
}
