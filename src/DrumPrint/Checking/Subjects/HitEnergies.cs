using DrumPrint.Dsp.Alignment;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Checking.Subjects;

/// <summary>Energies of sums of several microphones on the hits of a drum, in a band.</summary>
internal sealed class HitEnergies
{
    private const double WindowS = 0.06;
    private const double RunUpS = 0.002;

    private readonly double[][][] _re;
    private readonly double[][][] _im;
    private readonly double[] _gains;
    private readonly double _hzPerBin;

    /// <param name="readers">The microphones.</param>
    /// <param name="gains">Gain and polarity of each.</param>
    /// <param name="delays">Frames by which each is delayed.</param>
    /// <param name="hitFrames">Hits, in frames of the song.</param>
    /// <param name="rateHz">Frames in a second.</param>
    public HitEnergies(IReadOnlyList<FrameReader> readers, IReadOnlyList<double> gains, IReadOnlyList<long> delays, IReadOnlyList<long> hitFrames, int rateHz)
    {
        var frames = (int)((WindowS + RunUpS) * rateHz);
        var points = 1;
        while (points < frames)
        {
            points *= 2;
        }

        var fft = new RealFft(points);
        _hzPerBin = (double)rateHz / points;
        _gains = [.. gains];
        _re = new double[hitFrames.Count][][];
        _im = new double[hitFrames.Count][][];
        var line = new double[points];
        for (var h = 0; h < hitFrames.Count; h++)
        {
            (_re[h], _im[h]) = (new double[readers.Count][], new double[readers.Count][]);
            for (var r = 0; r < readers.Count; r++)
            {
                line.AsSpan().Clear();
                readers[r](hitFrames[h] - (long)(RunUpS * rateHz) - delays[r], line.AsSpan(0, frames));
                Fade(line.AsSpan(0, frames));
                (_re[h][r], _im[h][r]) = (new double[fft.Bins], new double[fft.Bins]);
                fft.Forward(line, _re[h][r], _im[h][r]);
            }
        }
    }

    public int Hits => _re.Length;

    /// <summary>Energy of the sum of some microphones over all hits.</summary>
    /// <param name="lowHz">Lower end of the band.</param>
    /// <param name="highHz">Upper end.</param>
    /// <param name="signs">1 or −1 for each microphone; 0 to leave it out.</param>
    public double Energy(double lowHz, double highHz, ReadOnlySpan<int> signs)
    {
        var (first, last) = ((int)Math.Ceiling(lowHz / _hzPerBin), (int)(highHz / _hzPerBin));
        var energy = 0.0;
        for (var h = 0; h < _re.Length; h++)
        {
            for (var k = first; k <= last && k < _re[h][0].Length; k++)
            {
                var (re, im) = (0.0, 0.0);
                for (var r = 0; r < _gains.Length; r++)
                {
                    re += signs[r] * _gains[r] * _re[h][r][k];
                    im += signs[r] * _gains[r] * _im[h][r][k];
                }

                energy += (re * re) + (im * im);
            }
        }

        return energy;
    }

    // The last third falls to nothing, so that the end of a window is no event.
    private static void Fade(Span<double> line)
    {
        var from = line.Length * 2 / 3;
        for (var n = from; n < line.Length; n++)
        {
            line[n] *= 1 - ((double)(n - from) / (line.Length - from));
        }
    }
}
