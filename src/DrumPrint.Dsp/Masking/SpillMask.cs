namespace DrumPrint.Dsp.Masking;

/// <summary>How much of each bin of a frame is kept, for the spill expected in it.</summary>
/// <remarks>After Wiener. With a spill of part p of the power, 1 − 0.6 · p − 2.4 · p² is kept: near 1 − p where the spill is small, so hits stay as
/// loud as they are, and nothing from about half on, for both powers swing about their means. The gain is the root of that. The figures
/// were found by trial.</remarks>
internal sealed class SpillMask(int bins, double floor)
{
    private const double Straight = 0.6;
    private const double Curved = 2.4;
    private const double Nothing = 1e-6;

    private readonly double[] _power = new double[bins];

    /// <summary>The gains of the frame.</summary>
    public double[] Gains { get; } = new double[bins];

    /// <summary>Whether anything is turned down.</summary>
    public bool Works { get; private set; }

    /// <summary>Gain of the frame as a whole: the root of the part of its power that is kept.</summary>
    public double Gain { get; private set; }

    /// <summary>Works out the gains.</summary>
    /// <param name="re">Real parts of the microphone's spectrum.</param>
    /// <param name="im">Imaginary parts.</param>
    /// <param name="spill">Square of the spill expected.</param>
    public void Find(ReadOnlySpan<double> re, ReadOnlySpan<double> im, ReadOnlySpan<double> spill)
    {
        for (var bin = 0; bin < bins; bin++)
        {
            _power[bin] = (re[bin] * re[bin]) + (im[bin] * im[bin]);
        }

        var (all, kept) = (0.0, 0.0);
        for (var bin = 0; bin < bins; bin++)
        {
            var before = Math.Max(0, bin - 1);
            var after = Math.Min(bins - 1, bin + 1);
            var here = (2 * _power[bin]) + _power[before] + _power[after];
            var expected = (2 * spill[bin]) + spill[before] + spill[after];
            var gain = GainOf(expected, here);
            Gains[bin] = gain;
            all += _power[bin];
            kept += _power[bin] * gain * gain;
        }

        Works = kept < all;
        Gain = Works ? Math.Sqrt(kept / all) : 1;
    }

    private double GainOf(double expected, double here)
    {
        if (expected <= Nothing * here)
        {
            return 1;
        }

        var part = Math.Min(1, expected / here);
        var kept = 1 - (part * (Straight + (Curved * part)));
        return kept > 0 ? Math.Max(floor, Math.Sqrt(kept)) : floor;
    }
}
