using DrumPrint.Demo.Playing;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Synthesis;

/// <summary>A way a head or plate vibrates: a sine that dies away.</summary>
internal static class Mode
{
    private const double Inaudible = 1e-5;
    private const int FramesPerPitch = 16;

    /// <summary>Adds a mode of steady pitch.</summary>
    /// <param name="phase">Of the sine at the start, in radians.</param>
    public static void Ring(Span<double> target, double level, double freqHz, double decayS, double phase = 0)
    {
        var angle = 2 * Math.PI * freqHz / SongForm.SampleRate;
        var decay = Decay.PerFrame(decayS);
        var twice = 2 * decay * Elementary.Cos(angle);
        var squared = -decay * decay;
        var before = level * Elementary.Sin(phase - angle) / decay;
        var now = level * Elementary.Sin(phase);
        foreach (ref var sample in target[..AudibleFrames(target.Length, level, decay)])
        {
            sample += now;
            (before, now) = (now, Math.FusedMultiplyAdd(twice, now, squared * before));
        }
    }

    /// <summary>Adds a mode whose pitch falls as the head relaxes after a blow.</summary>
    /// <param name="glideS">Time constant of the fall.</param>
    public static void Fall(Span<double> target, double level, double fromHz, double toHz, double glideS, double decayS)
    {
        var decay = Decay.PerFrame(decayS);
        var (sin, cos) = (0.0, level);
        for (var start = 0; start < AudibleFrames(target.Length, level, decay); start += FramesPerPitch)
        {
            var seconds = (start + (FramesPerPitch / 2)) / (double)SongForm.SampleRate;
            var freqHz = toHz + ((fromHz - toHz) * Elementary.Exp(-seconds / glideS));
            var (turnSin, turnCos) = Elementary.SinCos(2 * Math.PI * freqHz / SongForm.SampleRate);
            turnSin *= decay;
            turnCos *= decay;
            foreach (ref var sample in target[start..Math.Min(start + FramesPerPitch, target.Length)])
            {
                sample += sin;
                (sin, cos) = ((sin * turnCos) + (cos * turnSin), (cos * turnCos) - (sin * turnSin));
            }
        }
    }

    private static int AudibleFrames(int frames, double level, double decay)
    {
        var audible = Elementary.Log(Inaudible / Math.Max(Inaudible, Math.Abs(level))) / Elementary.Log(decay);
        return (int)Math.Min(frames, Math.Ceiling(audible));
    }
}
