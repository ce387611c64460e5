using DrumPrint.Checking.Takes;
using DrumPrint.Dsp.Alignment;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Checking.Subjects;

/// <summary>Power spectra of some places of a file.</summary>
internal sealed class MeanSpectrum
{
    private readonly double[][] _powers;

    private MeanSpectrum(double[][] powers, double hzPerBin) => (_powers, HzPerBin) = (powers, hzPerBin);

    public double HzPerBin { get; }

    public int Places => _powers.Length;

    /// <summary>Spectra of the loudest places, one in each of so many equal parts of the file.</summary>
    public static MeanSpectrum Loud(CheckedTake take, Windows windows, int places, int points) => Of(take, windows, points, Parts(take.Figures!, places, loud: true));

    /// <summary>Spectra of the quietest.</summary>
    public static MeanSpectrum Quiet(CheckedTake take, Windows windows, int places, int points) => Of(take, windows, points, Parts(take.Figures!, places, loud: false));

    /// <summary>Mean level of a band at one place, in dB by bin, where a full-scale sine reads about 0.</summary>
    public double LevelDb(int place, double lowHz, double highHz) => TakeFigures.PowerDb(Mean(_powers[place], lowHz, highHz));

    /// <summary>Mean level of a band over all places.</summary>
    public double LevelDb(double lowHz, double highHz) => TakeFigures.PowerDb(_powers.Length == 0 ? 0 : _powers.Average(p => Mean(p, lowHz, highHz)));

    private double Mean(double[] powers, double lowHz, double highHz)
    {
        var (first, last) = (Math.Max(1, (int)Math.Round(lowHz / HzPerBin)), Math.Min(powers.Length - 1, (int)Math.Round(highHz / HzPerBin)));
        var sum = 0.0;
        for (var k = first; k <= last; k++)
        {
            sum += powers[k];
        }

        return last >= first ? sum / (last - first + 1) : 0;
    }

    private static MeanSpectrum Of(CheckedTake take, Windows windows, int points, List<long> frames)
    {
        var fft = new RealFft(points);
        var window = new double[points];
        for (var n = 0; n < points; n++)
        {
            window[n] = 0.5 - (0.5 * Elementary.Cos(2 * Math.PI * n / points));
        }

        var (line, re, im) = (new double[points], new double[fft.Bins], new double[fft.Bins]);
        FrameReader read = windows.Middle(take);
        var powers = new double[frames.Count][];
        for (var i = 0; i < powers.Length; i++)
        {
            read(frames[i], line);
            for (var n = 0; n < points; n++)
            {
                line[n] *= window[n];
            }

            fft.Forward(line, re, im);
            powers[i] = new double[fft.Bins];
            for (var k = 0; k < powers[i].Length; k++)
            {
                powers[i][k] = 16.0 / points / points * ((re[k] * re[k]) + (im[k] * im[k]));
            }
        }

        return new MeanSpectrum(powers, (double)take.Figures!.RateHz / points);
    }

    private static List<long> Parts(TakeFigures figures, int places, bool loud)
    {
        const int step = 50;
        var slices = figures.MsPower.Length / step;
        var found = new List<long>();
        for (var part = 0; part < places; part++)
        {
            var (from, to) = (part * slices / places, (part + 1) * slices / places);
            var (best, power) = (-1, 0.0);
            for (var s = from; s < to; s++)
            {
                var p = figures.Power(s * step / 1000.0, ((s + 1) * step) / 1000.0);
                if (p > 0 && (best < 0 || (loud ? p > power : p < power)))
                {
                    (best, power) = (s, p);
                }
            }

            if (best >= 0)
            {
                found.Add((long)best * step * figures.RateHz / 1000);
            }
        }

        return found;
    }
}
