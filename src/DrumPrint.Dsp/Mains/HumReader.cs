using DrumPrint.Dsp.Mixing;

namespace DrumPrint.Dsp.Mains;

/// <summary>Looks at a stretch through the harmonics of a <see cref="HumBasis"/>.</summary>
/// <remarks>The stretch is folded into one period first, which loses nothing of what is asked for.</remarks>
internal sealed class HumReader
{
    private readonly HumBasis _basis;
    private readonly double[] _folded;
    private readonly double[] _besideCosine;
    private readonly double[] _besideSine;
    private readonly double[] _change;
    private readonly double[] _powers;

    /// <param name="basis">The harmonics.</param>
    public HumReader(HumBasis basis)
    {
        _basis = basis;
        (_folded, _besideCosine, _besideSine) = (new double[basis.Period], new double[basis.Period], new double[basis.Period]);
        (_change, _powers) = (new double[basis.Period], new double[basis.Harmonics]);
    }

    /// <summary>Looks at two steps that follow each other.</summary>
    public void Read(double[] first, double[] second, HumLook look)
    {
        Array.Clear(_folded);
        Array.Clear(_besideCosine);
        Array.Clear(_besideSine);
        Array.Clear(_change);
        Fold(first, 0);
        Fold(second, _basis.Step);
        Halve(_folded);
        Halve(_change);
        Halve(_besideCosine);
        Halve(_besideSine);
        for (var h = 0; h < _powers.Length; h++)
        {
            ReadHarmonic(h, look);
        }

        // Few places are an unsure reading of a power: those of the harmonics beside help.
        for (var h = 0; h < _powers.Length; h++)
        {
            var (from, to) = (Math.Max(0, h - 1), Math.Min(_powers.Length - 1, h + 1));
            var sum = 0.0;
            for (var i = from; i <= to; i++)
            {
                sum += _powers[i];
            }

            look.Beside[h] = sum / (to - from + 1);
        }
    }

    private void Fold(double[] step, int at)
    {
        var period = _basis.Period;
        for (var start = 0; start < step.Length; start += period)
        {
            var samples = step.AsSpan(start, period);
            Blend.Add(samples, _basis.Window.AsSpan(at + start, period), _folded);
            Blend.Add(samples, _basis.ChangeWindow.AsSpan(at + start, period), _change);
            Blend.Add(samples, _basis.BesideCosine.AsSpan(at + start, period), _besideCosine);
            Blend.Add(samples, _basis.BesideSine.AsSpan(at + start, period), _besideSine);
        }
    }

    // A cosine is the same from either end of a period, a sine turned over: so half a period of sums and of differences is enough.
    private static void Halve(double[] period)
    {
        for (int n = 1, other = period.Length - 1; n < other; n++, other--)
        {
            var (near, far) = (period[n], period[other]);
            (period[n], period[other]) = (near + far, near - far);
        }
    }

    private void ReadHarmonic(int harmonic, HumLook look)
    {
        var period = _basis.Period;
        var cosines = _basis.Cosines[harmonic].AsSpan(0, (period / 2) + 1);
        var sines = _basis.Sines[harmonic].AsSpan(0, cosines.Length);
        var (folded, change) = (_folded, _change);
        var (besideCosine, besideSine) = (_besideCosine, _besideSine);

        // Where a period begins, and where its middle is a frame, sines are zero.
        var (re, changeRe, cc, sc) = (folded[0], change[0], besideCosine[0], besideSine[0]);
        var (im, changeIm, cs, ss) = (0.0, 0.0, 0.0, 0.0);
        for (var n = 1; n < cosines.Length; n++)
        {
            var c = cosines[n];
            re = Math.FusedMultiplyAdd(folded[n], c, re);
            changeRe = Math.FusedMultiplyAdd(change[n], c, changeRe);
            cc = Math.FusedMultiplyAdd(besideCosine[n], c, cc);
            sc = Math.FusedMultiplyAdd(besideSine[n], c, sc);
        }

        for (int n = 1, other = period - 1; n < other; n++, other--)
        {
            var s = sines[n];
            im = Math.FusedMultiplyAdd(folded[other], -s, im);
            changeIm = Math.FusedMultiplyAdd(change[other], -s, changeIm);
            cs = Math.FusedMultiplyAdd(besideCosine[other], s, cs);
            ss = Math.FusedMultiplyAdd(besideSine[other], s, ss);
        }

        (look.Re[harmonic], look.Im[harmonic]) = (re, im);
        (look.ChangeRe[harmonic], look.ChangeIm[harmonic]) = (changeRe, changeIm);

        // Above and below: the second is the first, mirrored.
        var above = Square(cc + ss) + Square(sc - cs);
        var below = Square(cc - ss) + Square(sc + cs);
        _powers[harmonic] = (above + below) * 0.5;
    }

    private static double Square(double x) => x * x;
}
