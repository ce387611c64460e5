using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Layering;

/// <summary>The sound that is played under hits, cut to what is heard of it.</summary>
/// <param name="Channels">One or two; never written to.</param>
/// <param name="Middle">What they have in common.</param>
/// <param name="Begins">Frame in which its hit begins, found as those of the track are.</param>
internal sealed record LayerSound(double[][] Channels, double[] Middle, int Begins)
{
    /// <summary>What is kept ahead of the beginning; more would be time that every print waits.</summary>
    public const double BeforeMs = 10;

    // So far under its own peak a sound may begin.
    private const double OpenDb = -24;
    private const double RiseDb = 6;
    private const double GapMs = 100;
    private const double Silent = 1e-6;

    /// <summary>Finds the beginning and cuts.</summary>
    /// <param name="channels">The stretch of the file.</param>
    /// <param name="sampleRate">Hertz.</param>
    /// <param name="highPassHz">Corner of the key's high-pass; null for none.</param>
    /// <param name="lowPassHz">Corner of its low-pass; null for none.</param>
    /// <returns>Null when all of it is silence.</returns>
    public static LayerSound? Of(double[][] channels, int sampleRate, double? highPassHz, double? lowPassHz)
    {
        var middle = Middled(channels);
        var peak = middle.Max(Math.Abs);
        if (!(peak > 0))
        {
            return null;
        }

        var begins = Beginning(middle, peak, sampleRate, highPassHz, lowPassHz);
        var cut = Math.Max(0, begins - TriggerTimes.Frames(BeforeMs, sampleRate));
        return new LayerSound([.. channels.Select(c => c[cut..])], middle[cut..], begins - cut);
    }

    private static double[] Middled(double[][] channels)
    {
        double[] middle = [.. channels[0]];
        if (channels.Length == 2)
        {
            StretchMath.Mean(middle, channels[1]);
        }

        return middle;
    }

    // Where the first hit begins as the detector hears it; where it hears none, the first frame that comes near the peak.
    private static int Beginning(double[] middle, double peak, int sampleRate, double? highPassHz, double? lowPassHz)
    {
        KeyInput Input() => new(new ProcessorContext(new AudioFormat(sampleRate, 1), middle.Length), highPassHz, lowPassHz);
        var heard = new double[middle.Length];
        Input().Read(new AudioBlock([middle], 0, middle.Length), AudioBlock.None, 0, heard);
        var levelDb = Decibels.FromGain(Math.Max(heard.Max(Math.Abs), peak * Silent));
        var detector = new HitDetector(Input(), sampleRate, levelDb + OpenDb, RiseDb, GapMs);
        double[] whole = [.. middle, .. new double[detector.DelayFrames + 1]];
        for (var start = 0; start < whole.Length; start += HitDetector.MaxFrames)
        {
            var found = detector.Read(new AudioBlock([whole], start, Math.Min(HitDetector.MaxFrames, whole.Length - start)), AudioBlock.None);
            if (!found.IsEmpty)
            {
                return (int)Math.Clamp(found[0], 0, middle.Length - 1);
            }
        }

        return Array.FindIndex(middle, x => Math.Abs(x) >= peak / 4);
    }
}
