using DrumPrint.Demo.Playing;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Synthesis;

/// <summary>Exponential decay by its decay time, the time in which it falls by 60 dB.</summary>
internal static class Decay
{
    private const double LogOf60Db = 6.907755278982137;

    /// <summary>Factor from one frame to the next.</summary>
    public static double PerFrame(double decayS) => Elementary.Exp(-LogOf60Db / (decayS * SongForm.SampleRate));

    /// <summary>Sum of the squares of a decay that starts at 1, over all its frames.</summary>
    public static double Energy(double decayS)
    {
        var factor = PerFrame(decayS);
        return 1 / (1 - (factor * factor));
    }
}
