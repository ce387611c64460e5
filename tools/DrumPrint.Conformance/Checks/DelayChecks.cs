using System.Numerics;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Tests.Support;
using DrumPrint.Printing;
using DrumPrint.Session;
using Processor = DrumPrint.Dsp.Processors.Delay;

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
        .. new[] { ("\"delay_frames\": 53.4", 53.4), ("\"delay_ms\": 1.1", 52.8), ("\"delay_m\": 0.38", 0.38 / 343.2 * 48000) }.SelectMany(d => new[] { "track", "feed" }.Select(where => new Check(
            "delay",
            $"{d.Item1.Replace("\"", "", StringComparison.Ordinal)}, exact, on a {where}, printed at 48 kHz as 32-bit float: largest error to 0.9 of half the rate",
            Ideal,
            Bar.AtMost(FilterTolerance.FractionalDelayDb, "dB", 0),
            () => PrintedDb(d.Item1, d.Item2, where)))),
        new("delay", "whole frames, 1, 25 and 500 ms at 48 kHz: samples that differ by a bit", Ideal, Bar.Exactly(0, "samples"), Whole),
    ];

    private static Settings Of(double ms) => Settings.Of(Processor.Definition.Parameters, (Processor.Time, ms));

    private static double FractionDb(double ms, int rate)
    {
        var processor = Processor.Definition.Create(Of(ms), new ProcessorContext(new AudioFormat(rate, 1), 4000));
        var impulse = Run.Through(processor, [Signals.Impulse(4000)], 1)[0];
        var frames = (ms * rate / 1000) + processor.LatencyFrames;
        return Enumerable.Range(0, 200).Max(i =>
        {
            var f = 0.45 * rate * i / 199;
            return Spectrum.Decibels((Spectrum.ResponseAt(impulse, f, rate) - Complex.FromPolarCoordinates(1, -2 * Math.PI * f / rate * frames)).Magnitude);
        });
    }

    // A click of 0.5 on a long silence, whose print holds nothing but the filter's taps.
    private static double PrintedDb(string delay, double frames, string where)
    {
        const int At = 1000;
        using var folder = new TemporaryFolder();
        SoundFiles.Write(folder.File("click.wav"), 48000, SampleEncoding.Float32, [Signals.Impulse(4800, At, 0.5)]);
        var exact = $"{delay}, \"exact\": true";
        var chain = ChainReader.Parse(
            $$"""
            { "chain": 1, "song": { "title": "Late", "code": "Late", "rate_hz": 48000 },
              "tracks": { "click": { "file": "click.wav"{{(where == "track" ? $", {exact}" : "")}} } },
              "buses": { "late": { "from": { "click": { "level_db": 0{{(where == "feed" ? $", {exact}" : "")}} } } } },
              "prints": [ { "number": 1, "name": "Late", "bus": "late" } ], "output": { "bits": "32f" } }
            """,
            folder.File("late.chain.json"));
        var report = SessionPrinter.Print(chain, new PrintOptions());
        var print = SoundFiles.Read(Path.Combine(report.OutFolder, report.Prints[0].FileName))[0];
        return Enumerable.Range(0, 200).Max(i =>
        {
            var f = 0.45 * 48000 * i / 199;
            return Spectrum.Decibels((Spectrum.ResponseAt(print, f) - Complex.FromPolarCoordinates(0.5, -2 * Math.PI * f / 48000 * (At + frames))).Magnitude / 0.5);
        });
    }

    private static double Whole() => new[] { 1.0, 25, 500 }.Sum(ms =>
    {
        var input = Signals.Noise(30000);
        var output = Run.Through(Processor.Definition, Of(ms), [input])[0];
        var frames = (int)(ms * 48);
        return Enumerable.Range(0, input.Length).Count(n => output[n] != (n < frames ? 0 : input[n - frames]));
    });
}
