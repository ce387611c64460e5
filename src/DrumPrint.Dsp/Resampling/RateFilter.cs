using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Resampling;

/// <summary>
/// The low-pass between two sample rates: a sinc under a Kaiser window. It is flat to 0.9 of the lower rate's upper
/// limit, and below −140 dB from that limit on.
/// </summary>
internal sealed class RateFilter
{
    // Half the length in samples of the lower rate, and the window's shape: 150 dB for a transition of 1/20 of that rate.
    private const double HalfLength = 100;
    private const double AttenuationDb = 150;
    private const double Cutoff = 0.95;

    private readonly double _bandwidth;
    private readonly double _reach;
    private readonly double _beta = KaiserWindow.Beta(AttenuationDb);
    private readonly double _scale;

    public RateFilter(int fromHz, int toHz)
    {
        double lower = Math.Min(fromHz, toHz);
        _bandwidth = Cutoff * lower / fromHz;
        _reach = HalfLength * fromHz / lower;
        _scale = _bandwidth / Elementary.BesselI0(_beta);
        Half = ((int)Math.Ceiling(_reach) + 3) / 4 * 4;
    }

    /// <summary>Input samples on each side of an output sample that may count; a multiple of four.</summary>
    public int Half { get; }

    /// <summary>Output samples on each side of an input sample that it may count in.</summary>
    public static int Reach(int fromHz, int toHz) => (int)Math.Ceiling(HalfLength * toHz / Math.Min(fromHz, toHz)) + 1;

    /// <summary>Weight of the input sample that lies <paramref name="distance"/> samples from the output sample.</summary>
    public double At(double distance)
    {
        var position = distance / _reach;
        var inside = 1 - (position * position);
        if (inside < 0)
        {
            return 0;
        }

        // The window as KaiserWindow has it, its denominator worked out once.
        var angle = Math.PI * _bandwidth * distance;
        var sinc = angle == 0 ? 1 : Elementary.Sin(angle) / angle;
        return sinc * _scale * Elementary.BesselI0(_beta * Math.Sqrt(inside));
    }
}
