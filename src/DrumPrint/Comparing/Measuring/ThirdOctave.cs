using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Comparing.Measuring;

/// <summary>Level of both sides in one third-octave band, after matching.</summary>
/// <param name="NominalHz">Preferred frequency by which the band is called (ISO 266).</param>
/// <param name="ADb">Level of A in dBFS; −∞ for none.</param>
/// <param name="BDb">Level of B in dBFS, matched.</param>
/// <param name="DifferenceDb">B less A; null where neither is louder than 90 dB below the loudest band.</param>
public sealed record ThirdOctave(double NominalHz, double ADb, double BDb, double? DifferenceDb)
{
    private const double Floor = 1e-9; // −90 dB

    // Edges by IEC 61260-1:2014, base ten. ISO 266:1997: preferred frequencies of third octaves; exact middles are 1000·10^(n/10), here from n = −17 on.
    private static readonly double[] Nominal =
    [
        20, 25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800,
        1000, 1250, 1600, 2000, 2500, 3150, 4000, 5000, 6300, 8000, 10000, 12500, 16000, 20000,
    ];

    internal static IReadOnlyList<ThirdOctave> Of(BandPowers a, BandPowers b)
    {
        var bands = new List<(double Nominal, double A, double B)>();
        for (var i = 0; i < Nominal.Length; i++)
        {
            var (low, high) = Edges(i);
            if (high < a.HighestHz)
            {
                bands.Add((Nominal[i], a.Between(low, high), b.Between(low, high)));
            }
        }

        var floor = bands.Max(x => Math.Max(x.A, x.B)) * Floor;
        return [.. bands.Select(x => new ThirdOctave(
            x.Nominal,
            Levels.Db(x.A),
            Levels.Db(x.B),
            x.A > floor && x.B > floor ? Levels.Db(x.B / x.A) : null))];
    }

    private static (double Low, double High) Edges(int index)
    {
        var middle = 1000 * Elementary.Pow(10, (index - 17) / 10.0);
        var half = Elementary.Pow(10, 1 / 20.0);
        return (middle / half, middle * half);
    }
}
