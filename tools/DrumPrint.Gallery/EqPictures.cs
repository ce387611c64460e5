using System.Numerics;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Tests.Support;
using ScottPlot;

namespace DrumPrint.Gallery;

internal static class EqPictures
{
    private const int Rate = 44100;
    private const double Butterworth = 0.70710678118654752;
    private static readonly double[] Frequencies = [.. Dsp.Tests.Support.Response.AudibleFrequencies(400)];

    public static IEnumerable<Picture> All() =>
    [
        new("eq_shelf.png", "A 10 kHz shelf at 44.1 kHz: ours (blue) lies on the analog curve (black dashes) up to 20 kHz, while the plain textbook design (orange dots) is squeezed together towards half the sample rate.", Shelf),
        new("eq_bells.png", "Bells at 100 Hz, 1, 3 and 10 kHz: ours (blue) keep their analog shape and width (black dashes), the high one too, which the textbook design (orange dots) makes narrow.", Bells),
        new("eq_slopes.png", "High-pass filters at 80 Hz, 6 to 48 dB per octave: all cross −3 dB at the corner.", Slopes),
    ];

    private static Plot Shelf()
    {
        var plot = House.OverFrequency("A 10 kHz shelf stays a 10 kHz shelf (44.1 kHz)", "Level, dB", -14, 14, 1000);
        foreach (var gain in new[] { 12, 6, -6, -12 })
        {
            plot.Response(Frequencies, Db(AnalogBand.HighShelf(10000, gain, Butterworth)), House.Blue, LinePattern.Solid, gain == 12 ? "eq" : null, 4);
            plot.Response(Frequencies, f => Spectrum.Decibels(Analog.HighShelf(new Complex(0, f / 10000), gain, Butterworth).Magnitude), House.Ink, LinePattern.Dashed, gain == 12 ? "analog" : null, 1.5f);
            plot.Response(Frequencies, f => Spectrum.Decibels(Analog.HighShelf(Bilinear(f, 10000), gain, Butterworth).Magnitude), House.Orange, LinePattern.Dotted, gain == 12 ? "textbook (bilinear)" : null);
        }

        plot.ShowLegend(Alignment.UpperLeft);
        return plot;
    }

    private static Plot Bells()
    {
        var plot = House.OverFrequency("Bells against their analog curves (44.1 kHz)", "Level, dB", -14, 14);
        foreach (var (corner, gain, q) in new[] { (100, 9.0, 0.7), (1000, -12, 2), (10000, 9, 2), (3000, 5, 8) })
        {
            plot.Response(Frequencies, Db(AnalogBand.Bell(corner, gain, q)), House.Blue, LinePattern.Solid, corner == 100 ? "eq" : null, 4);
            plot.Response(Frequencies, f => Spectrum.Decibels(Analog.Bell(new Complex(0, f / corner), gain, q).Magnitude), House.Ink, LinePattern.Dashed, corner == 100 ? "analog" : null, 1.5f);
            plot.Response(Frequencies, f => Spectrum.Decibels(Analog.Bell(Bilinear(f, corner), gain, q).Magnitude), House.Orange, LinePattern.Dotted, corner == 100 ? "textbook (bilinear)" : null, 2);
        }

        plot.Note("q 0.7", Math.Log10(82), 10.8);
        plot.Note("q 2", Math.Log10(1080), -12);
        plot.Note("q 8", Math.Log10(2750), 6.7);
        plot.Note("q 2", Math.Log10(9200), 10.8);
        plot.ShowLegend(Alignment.LowerLeft);
        return plot;
    }

    private static Plot Slopes()
    {
        var plot = House.OverFrequency("High-pass at 80 Hz, 6 to 48 dB per octave", "Level, dB", -60, 3, 20, 1000);
        Color[] colours = [House.Ink, House.Orange, House.Blue, House.Sky];
        LinePattern[] patterns = [LinePattern.Solid, LinePattern.Dashed];
        for (var order = 1; order <= 8; order++)
        {
            plot.Response([.. Dsp.Tests.Support.Response.AudibleFrequencies(400, 1000)], Db(AnalogBand.HighPass(80, order)), colours[(order - 1) % 4], patterns[(order - 1) / 4], $"{6 * order} dB per octave");
        }

        plot.Note("−3 dB at 80 Hz", Math.Log10(84), -3.5);
        plot.ShowLegend(Alignment.LowerRight);
        return plot;
    }

    private static Func<double, double> Db(AnalogBand band)
    {
        var design = CorrectedDesign.Of([band], Rate);
        return f => Dsp.Tests.Support.Response.DbAt(design, f, Rate);
    }

    // Where the bilinear transform looks at the analog filter, its corner being put right.
    private static Complex Bilinear(double freqHz, double cornerHz) => new(0, Math.Tan(Math.PI * freqHz / Rate) / Math.Tan(Math.PI * cornerHz / Rate));
}
