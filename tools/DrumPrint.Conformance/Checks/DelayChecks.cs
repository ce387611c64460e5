using System.Numerics;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>Delays against the ideal one.</summary>
internal static class DelayChecks
{
    private const string Ideal = "ideal delay: e^(−jωD)";

    public static IEnumerable<Check> All() =>
    [
        .. new[] { 0.013, 0.1, 1.1, 3.337, 25.0104 }.SelectMany(ms => new[] { 44100, 48000, 96000 }.Select(rate => new Check(
            "delay",
            FormattableString.Invariant($"{ms} ms at {rate / 1000.0} kHz: largest error to 0.9 of half the rate"),
            Ideal,
            Bar.AtMost(FilterTolerance.FractionalDelayDb, "dB", 0, floor: -200),
            () => FractionDb(ms, rate)))),
        new("delay", "whole frames, 1, 25 and 500 ms at 48 kHz: samples that differ by a bit", Ideal, Bar.Exactly(0, "samples"), Whole),
    ];

    private static Settings Of(double ms) => Settings.Of(Delay.Definition.Parameters, (Delay.Time, ms));

    private static double FractionDb(double ms, int rate)
    {
        var processor = Delay.Definition.Create(Of(ms), new ProcessorContext(new AudioFormat(rate, 1), 4000));
        var impulse = Run.Through(processor, [Signals.Impulse(4000)], 1)[0];
        var frames = (ms * rate / 1000) + processor.LatencyFrames;
        return Enumerable.Range(0, 200).Max(i =>
        {
            var f = 0.45 * rate * i / 199;
            return Spectrum.Decibels((Spectrum.ResponseAt(impulse, f, rate) - Complex.FromPolarCoordinates(1, -2 * Math.PI * f / rate * frames)).Magnitude);
        });
    }

    private static double Whole() => new[] { 1.0, 25, 500 }.Sum(ms =>
    {
        var input = Signals.Noise(30000);
        var output = Run.Through(Delay.Definition, Of(ms), [input])[0];
        var frames = (int)(ms * 48);
        return Enumerable.Range(0, input.Length).Count(n => output[n] != (n < frames ? 0 : input[n - frames]));
    });
}
