using DrumPrint.Demo.Playing;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Recording;

/// <summary>Adds the hits of a performance to a stretch of a track.</summary>
internal static class HitMixer
{
    // A hand closes the hats in about this time.
    private const int ChokeFrames = 720;

    /// <summary>Adds what falls into a stretch.</summary>
    /// <param name="target">The stretch.</param>
    /// <param name="start">Its first frame.</param>
    /// <param name="hits">In order of time.</param>
    /// <param name="soundOf">The sound of a hit at full level, as heard here.</param>
    public static void Add(Span<float> target, long start, IReadOnlyList<PlayedHit> hits, Func<PlayedHit, ReadOnlyMemory<float>> soundOf)
    {
        foreach (var hit in hits)
        {
            if (hit.Frame >= start + target.Length)
            {
                break;
            }

            var sound = soundOf(hit);
            var end = Math.Min(hit.Frame + sound.Length, hit.StopFrame == long.MaxValue ? long.MaxValue : hit.StopFrame + ChokeFrames);
            if (end > start)
            {
                AddHit(target, start, hit, sound.Span[..(int)(end - hit.Frame)]);
            }
        }
    }

    private static void AddHit(Span<float> target, long start, PlayedHit hit, ReadOnlySpan<float> sound)
    {
        var gain = (float)Decibels.ToGain(hit.LevelDb);
        var from = (int)Math.Max(0, start - hit.Frame);
        var to = (int)Math.Min(sound.Length, start + target.Length - hit.Frame);
        var choke = (int)Math.Clamp(hit.StopFrame - hit.Frame, from, to);
        Vectors.AddScaled(target[(int)(hit.Frame + from - start)..], sound[from..choke], gain);
        for (var n = choke; n < to; n++)
        {
            var left = 1 - ((n - (hit.StopFrame - hit.Frame)) / (float)ChokeFrames);
            target[(int)(hit.Frame + n - start)] += gain * left * sound[n];
        }
    }
}
