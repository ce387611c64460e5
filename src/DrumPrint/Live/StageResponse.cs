using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Live;

/// <summary>What an equaliser does to each frequency, measured on the processor itself.</summary>
public static class StageResponse
{
    private const int Points = 96;
    private const int Frames = 1 << 13;
    private const double LowestHz = 20;
    private const double HighestHz = 20000;

    /// <summary>Frequencies, evenly spaced in octaves, in Hz.</summary>
    public static IReadOnlyList<double> Frequencies { get; } =
        [.. Enumerable.Range(0, Points).Select(n => LowestHz * Elementary.Exp(Elementary.Log(HighestHz / LowestHz) * n / (Points - 1)))];

    /// <summary>Gain in dB at each of the <see cref="Frequencies"/>; null for what is no equaliser.</summary>
    /// <param name="stage">The processor.</param>
    /// <param name="rateHz">Sample rate of the session.</param>
    public static IReadOnlyList<double>? Of(Stage stage, int rateHz)
    {
        ArgumentNullException.ThrowIfNull(stage);
        if (stage.Definition.Key != Eq.Definition.Key)
        {
            return null;
        }

        double[][] impulse = [new double[Frames]];
        impulse[0][0] = 1;
        var format = new AudioFormat(rateHz, 1);
        stage.Definition.Create(OnOneSide(stage.Settings), new ProcessorContext(format, Frames)).Process(new AudioBlock(impulse, 0, Frames), AudioBlock.None);
        return [.. Frequencies.Select(hz => hz >= rateHz / 2.0 ? 0 : Decibels.FromGain(Math.Max(1e-6, Magnitude(impulse[0], hz / rateHz))))];
    }

    // Every band as it works on the part of the signal that it is for. Linear phase has the same levels, and comes later than is listened.
    private static Settings OnOneSide(Settings settings) => settings
        .With(Eq.Bands, (IReadOnlyList<Item>)[.. settings[Eq.Bands].Select(band => band.Kind.Parameters.OfType<ChoiceParameter>().FirstOrDefault(p => p.Key == "on") is { } on ? band with { Settings = band.Settings.With(on, on.Default) } : band)])
        .With(Eq.Phase, Eq.Phase.Default);

    // One term of the Fourier sum, its phasor turned step by step.
    private static double Magnitude(double[] samples, double cyclesPerFrame)
    {
        var angle = -2 * Math.PI * cyclesPerFrame;
        var (stepRe, stepIm) = (Elementary.Cos(angle), Elementary.Sin(angle));
        var (re, im, sumRe, sumIm) = (1.0, 0.0, 0.0, 0.0);
        foreach (var sample in samples)
        {
            sumRe += sample * re;
            sumIm += sample * im;
            (re, im) = ((re * stepRe) - (im * stepIm), (re * stepIm) + (im * stepRe));
        }

        return Math.Sqrt((sumRe * sumRe) + (sumIm * sumIm));
    }
}
