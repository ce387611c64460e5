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
            var window = _basis.Window.AsSpan(at + start, period);
            var cosine = _basis.BesideCosine.AsSpan(at + start, period);
            var sine = _basis.BesideSine.AsSpan(at + start, period);
            var change = _basis.ChangeWindow.AsSpan(at + start, period);
            for (var n = 0; n < samples.Length; n++)
            {
                var x = samples[n];
                _change[n] = Math.FusedMultiplyAdd(x, change[n], _change[n]);
                _folded[n] = Math.FusedMultiplyAdd(x, window[n], _folded[n]);
                _besideCosine[n] = Math.FusedMultiplyAdd(x, cosine[n], _besideCosine[n]);
                _besideSine[n] = Math.FusedMultiplyAdd(x, sine[n], _besideSine[n]);
            }
        }
    }

    private void ReadHarmonic(int harmonic, HumLook look)
    {
        var cosines = _basis.Cosines[harmonic].AsSpan();
        var sines = _basis.Sines[harmonic].AsSpan()[..cosines.Length];
        var folded = _folded.AsSpan(0, cosines.Length);
        var besideCosine = _besideCosine.AsSpan(0, cosines.Length);
        var besideSine = _besideSine.AsSpan(0, cosines.Length);
        var change = _change.AsSpan(0, cosines.Length);
        var (re, im) = (0.0, 0.0);
        var (changeRe, changeIm) = (0.0, 0.0);
        var (cc, cs) = (0.0, 0.0);
        var (sc, ss) = (0.0, 0.0);
        for (var n = 0; n < cosines.Length; n++)
        {
            var (c, s) = (cosines[n], sines[n]);
            re = Math.FusedMultiplyAdd(folded[n], c, re);
            im = Math.FusedMultiplyAdd(folded[n], -s, im);
            changeRe = Math.FusedMultiplyAdd(change[n], c, changeRe);
            changeIm = Math.FusedMultiplyAdd(change[n], -s, changeIm);
            cc = Math.FusedMultiplyAdd(besideCosine[n], c, cc);
            cs = Math.FusedMultiplyAdd(besideCosine[n], s, cs);
            sc = Math.FusedMultiplyAdd(besideSine[n], c, sc);
            ss = Math.FusedMultiplyAdd(besideSine[n], s, ss);
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
