using DrumPrint.Dsp;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;
using ScottPlot;

namespace DrumPrint.Gallery;

internal static class BandPictures
{
    private const int Rate = 48000;
    private static readonly double[] Frequencies = [.. Response.AudibleFrequencies(400)];

    public static IEnumerable<Picture> All() =>
    [
        new("bands_levels.png", "Three bands that part at 150 Hz and 4 kHz, 24 dB per octave (lines) and 48 (dashes): each is 6 dB down where they meet. Their sum (grey) is flat.", Levels),
        new("dynamic_eq_tom.png", "A tom whose 180 Hz rings 12 dB too loud (grey) and the same with that ring turned down while it lasts (blue), as levels of 10 ms.", Tom),
    ];

    private static Plot Levels()
    {
        var plot = House.OverFrequency("Bands: three of them and their sum", "Level, dB", -60, 6);
        plot.Response(Frequencies, Sum, House.Grey, LinePattern.Solid, "the sum of all");
        foreach (var (slope, pattern) in new[] { (24, LinePattern.Solid), (48, LinePattern.Dashed) })
        {
            plot.Response(Frequencies, f => Decibels(CrossoverDesign.Below(150, slope, Rate), f), House.Blue, pattern, $"low, {slope} dB/oct");
            plot.Response(Frequencies, f => Decibels([.. CrossoverDesign.Above(150, slope, Rate), .. CrossoverDesign.Below(4000, slope, Rate)], f), House.Orange, pattern, $"mid, {slope} dB/oct");
            plot.Response(Frequencies, f => Decibels(CrossoverDesign.Above(4000, slope, Rate), f), House.Sky, pattern, $"high, {slope} dB/oct");
        }

        plot.ShowLegend(Alignment.LowerCenter);
        return plot;
    }

    private static double Sum(double freq)
    {
        var impulse = WholeSignal.Through([[1.0]], Rate, Bands.Definition.With(Bands.Split.To(150), Bands.Split2.To(4000), Bands.In.To()))[0];
        return Spectrum.Decibels(Spectrum.ResponseAt(impulse, freq, Rate).Magnitude);
    }

    private static double Decibels(BiquadCoefficients[] sections, double freq) => Spectrum.Decibels(Response.At(sections, freq, Rate).Magnitude);

    private static Plot Tom()
    {
        var tom = RingingTom.Samples(Rate);
        var tamed = WholeSignal.Through([tom], Rate, RingingTom.Tamer())[0];

        var plot = House.Plot("Dynamic eq: a ring that stands out", "Time, ms", "Level, dBFS");
        plot.Axes.SetLimits(0, 900, -70, 0);
        var windows = tom.Length / 480;
        double[] times = [.. Enumerable.Range(0, windows).Select(n => n * 10.0)];
        plot.Line(times, [.. Enumerable.Range(0, windows).Select(n => Level(tom, n))], House.Grey, LinePattern.Solid, "as it came");
        plot.Line(times, [.. Enumerable.Range(0, windows).Select(n => Level(tamed, n))], House.Blue, LinePattern.Solid, "tamed");
        plot.ShowLegend(Alignment.UpperRight);
        return plot;
    }

    private static double Level(double[] samples, int window) => Spectrum.Decibels(samples.AsSpan(window * 480, 480).ToArray().Max(Math.Abs));
}
