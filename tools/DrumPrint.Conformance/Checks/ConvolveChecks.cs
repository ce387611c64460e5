using System.Numerics;
using DrumPrint.Audio;
using DrumPrint.Chains.Reading;
using DrumPrint.Demo.Spaces;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;
using DrumPrint.Printing;
using DrumPrint.Session;
using DrumPrint.Tests.Demo;

namespace DrumPrint.Conformance.Checks;

/// <summary>Convolution against its definition, and the decay of what comes out.</summary>
internal static class ConvolveChecks
{
    public const string Note = "The direct sum is worked out for 300 frames spread over each output. The printed tail is a click through `convolve` with the demo session's chamber, printed as a 24-bit file; octaves are cut out with two band-passes of q √2.";

    private const int ClickAt = 480;
    private const string Definition = "definition: Σ h[k]·x[n − k]";
    private const string Iso = "ISO 3382-1:2009, T30 by backward integration; the 5 % is borrowed: table A.1 gives it as the smallest difference heard of the early decay time";

    public static IEnumerable<Check> All() =>
    [
        .. new[] { 1, 17, 4096, 96000, 480001 }.SelectMany(frames => new[] { ImpulseLayout.Mono, ImpulseLayout.Stereo, ImpulseLayout.TrueStereo }.Select(layout => new Check(
            "convolve",
            $"{Name(layout)} impulse of {(frames == 1 ? "1 frame" : $"{frames} frames")} against the direct sum, largest difference to the peak",
            Definition,
            Bar.AtMost(SpectralTolerance.ConvolutionDb, "dB", 0, floor: -280),
            () => DirectDb(frames, layout)))),
        .. new[] { 125, 250, 500, 1000, 2000, 4000, 8000 }.Select(octave => new Check("convolve", $"printed tail, octave at {octave} Hz: T30 against the impulse's own", Iso, Bar.AtMost(0.1, "%", 3), () => TailPct(octave))),
        .. new[] { 0.5, 1.0, 1.4 }.Select(target => new Check("convolve", $"decay shortened to {target.ToString("0.0", System.Globalization.CultureInfo.InvariantCulture)} s: T30, distance from the target", Iso, Bar.AtMost(3.8, "%", 2), () => ShortenedPct(target))),
        .. new[] { (32000, 48000), (44100, 48000), (88200, 48000), (96000, 48000), (192000, 48000), (48000, 44100), (96000, 44100), (44100, 96000) }.Select(r => new Check(
            "convolve",
            FormattableString.Invariant($"impulse file of {r.Item1 / 1000.0} kHz printed at {r.Item2 / 1000.0} kHz, used as it is: level and timing against the response it stands for, to 0.9 of the lower half rate"),
            "sampling theorem: one response, whatever the rate",
            Bar.AtMost(0.00002, "dB", 6),
            () => ConvertedDb(r.Item1, r.Item2))),
        .. new[] { 300.0, 2000, 20000 }.SelectMany(corner => new[] { ImpulseLayout.Mono, ImpulseLayout.TrueStereo }.Select(layout => new Check(
            "convolve",
            FormattableString.Invariant($"gain by loudness, {Name(layout)} room falling by 60 dB in 0.5 s and by 6 dB per octave above {corner} Hz: pink noise out less pink noise in"),
            "ITU-R BS.1770-5; pink: power 1/f, 20 Hz to 20 kHz",
            Bar.Near(0, 0.07, "LU", 3),
            () => LoudnessLu(corner, layout)))),
        .. ConvolveShapes.All(),
    ];

    private static string Name(ImpulseLayout layout) => layout switch { ImpulseLayout.Mono => "mono", ImpulseLayout.Stereo => "stereo", _ => "true-stereo" };

    private static double DirectDb(int frames, ImpulseLayout layout)
    {
        var h = Enumerable.Range(0, layout switch { ImpulseLayout.Mono => 1, ImpulseLayout.Stereo => 2, _ => 4 }).Select(c => Decaying(frames, (ulong)c + 1, 0.5)).ToArray();
        double[][] x = layout == ImpulseLayout.Mono ? [Signals.Noise(50000, 7)] : [Signals.Noise(50000, 7), Signals.Noise(50000, 8)];
        var y = Through(x, layout, h, (Convolve.Level, "as_is"));
        var step = Math.Max(1, y[0].Length / 300);
        var worst = 0.0;
        for (var n = 0; n < y[0].Length; n += step)
        {
            for (var side = 0; side < y.Length; side++)
            {
                var want = layout == ImpulseLayout.TrueStereo
                    ? DirectConvolution.At(x[0], h[side], n) + DirectConvolution.At(x[1], h[2 + side], n)
                    : DirectConvolution.At(x[side], h[side], n);
                worst = Math.Max(worst, Math.Abs(y[side][n] - want));
            }
        }

        return Spectrum.Decibels(worst / y.Max(c => c.Max(Math.Abs)));
    }

    private static double[][] Through(double[][] input, ImpulseLayout layout, double[][] h, params (Parameter, object)[] more)
    {
        var impulses = new Dictionary<string, Impulse> { ["space"] = new("space", 48000, layout, h) };
        var settings = Settings.Of(Convolve.Definition.Parameters, [(Convolve.ImpulseName, "space"), .. more]);
        var processor = Convolve.Definition.Create(settings, new ProcessorContext(new AudioFormat(48000, input.Length), 0, 0, impulses));
        var outputs = Convolve.Definition.OutputChannels(settings, new ProcessorContext(new AudioFormat(48000, input.Length), 0, 0, impulses));
        return Array.ConvertAll(Run.Through(processor, input, outputs, 480, processor.LatencyFrames), c => c[processor.LatencyFrames..]);
    }

    // A click at once and, 5 ms later, four tones under a bell curve: a response known at every rate.
    private static double ConvertedDb(int fileHz, int rateHz)
    {
        const double Later = 0.005;
        const double Wide = 0.0003;
        double[] tones = [200, 1000, 4000, 9000];
        var response = new double[fileHz / 50];
        for (var n = 0; n < response.Length; n++)
        {
            var t = ((double)n / fileHz) - Later;
            response[n] = 0.2 * 48000 / fileHz * 0.1 * Math.Exp(-t * t / (Wide * Wide)) * tones.Sum(f => Math.Cos(2 * Math.PI * f * t));
        }

        response[0] += 1;
        var print = Printed(rateHz, fileHz, [response]);
        Complex Expected(double f)
        {
            double Bell(double off) => Wide * Math.Sqrt(Math.PI) / 2 * Math.Exp(-Math.Pow(Math.PI * off * Wide, 2));
            return 1 + (0.2 * 48000 * 0.1 * tones.Sum(tone => Bell(f - tone) + Bell(f + tone)) * Complex.FromPolarCoordinates(1, -2 * Math.PI * f * Later));
        }

        return Enumerable.Range(1, 200).Max(i =>
        {
            var f = 0.45 * Math.Min(fileHz, rateHz) * i / 200;
            var late = Complex.FromPolarCoordinates(0.5, -2 * Math.PI * f / rateHz * ClickAt);
            return 20 * Math.Log10(1 + ((Spectrum.ResponseAt(print, f, rateHz) / late) - Expected(f)).Magnitude / Expected(f).Magnitude);
        });
    }

    private static double[] Printed(int rateHz, int fileHz, double[][] impulse)
    {
        using var folder = new TemporaryFolder();
        SoundFiles.Write(folder.File("impulse.wav"), fileHz, SampleEncoding.Float32, impulse);
        SoundFiles.Write(folder.File("click.wav"), rateHz, SampleEncoding.Float32, [Signals.Impulse(rateHz / 10, ClickAt, 0.5)]);
        var chain = ChainReader.Parse(
            $$"""
            { "chain": 1, "song": { "title": "Rates", "code": "Rates", "rate_hz": {{rateHz}} },
              "tracks": { "click": "click.wav" }, "impulses": { "space": "impulse.wav" },
              "buses": { "wet": { "from": { "click": 0 }, "through": [ { "convolve": { "impulse": "space", "gain": "as_is" } } ] } },
              "prints": [ { "number": 1, "name": "Wet", "bus": "wet" } ], "output": { "bits": "32f" } }
            """,
            folder.File("rates.chain.json"));
        var report = SessionPrinter.Print(chain, new PrintOptions());
        return SoundFiles.Read(Path.Combine(report.OutFolder, report.Prints[0].FileName))[0];
    }

    private static double LoudnessLu(double cornerHz, ImpulseLayout layout)
    {
        var keep = Math.Exp(-2 * Math.PI * cornerHz / 48000);
        var h = Enumerable.Range(0, layout == ImpulseLayout.Mono ? 1 : 4).Select(c =>
        {
            var y = 0.0;
            return Array.ConvertAll(Decaying(24000, (ulong)c + 80, 0.5), x => y = ((1 - keep) * x) + (keep * y));
        }).ToArray();
        var pink = PinkNoise.Make(1 << 19, 81);
        double[][] input = layout == ImpulseLayout.Mono ? [pink] : [pink, Signals.Silence(pink.Length)];
        return PinkNoise.Lufs(Through(input, layout, h, (Convolve.Level, "loudness"))) - PinkNoise.Lufs([pink]);
    }

    private static readonly Lazy<(double[] Impulse, double[] Print)> Tail = new(() =>
    {
        using var folder = new TemporaryFolder();
        var impulse = SoundFiles.Read(ImpulseWriter.Write(folder.File("chamber.wav"), Chamber.Make()));
        SoundFiles.Write(folder.File("click.wav"), 48000, SampleEncoding.Pcm24, [Signals.Impulse(4800, 480, 0.9)]);
        var chain = ChainReader.Parse(
            """
            { "chain": 1, "song": { "title": "Tail", "code": "Tail", "rate_hz": 48000 },
              "tracks": { "click": "click.wav" }, "impulses": { "chamber": "chamber.wav" },
              "buses": { "tail": { "from": { "click": 0 }, "through": [ { "convolve": { "impulse": "chamber", "gain": "peak" } } ] } },
              "prints": [ { "number": 1, "name": "Tail", "bus": "tail" } ] }
            """,
            folder.File("tail.chain.json"));
        var report = SessionPrinter.Print(chain, new PrintOptions());
        var print = SoundFiles.Read(Path.Combine(report.OutFolder, report.Prints[0].FileName));

        // A mono click reaches each side by both of its ways.
        return (impulse[0].Zip(impulse[2], (a, b) => a + b).ToArray(), print[0][480..]);
    });

    private static double TailPct(int octave) =>
        100 * Math.Abs((Reverberation.T30(Reverberation.Octave(Tail.Value.Print, octave)) / Reverberation.T30(Reverberation.Octave(Tail.Value.Impulse, octave))) - 1);

    private static double ShortenedPct(double target)
    {
        var h = Enumerable.Range(0, 4).Select(c => Decaying(124800, (ulong)c + 60, 1.9)).ToArray();
        var y = Through([Signals.Impulse(130000), Signals.Silence(130000)], ImpulseLayout.TrueStereo, h, (Convolve.DecayTarget, target));
        return y.Max(side => 100 * Math.Abs((Reverberation.T30(side) / target) - 1));
    }

    // Noise falling by 60 dB in the given time.
    private static double[] Decaying(int frames, ulong seed, double seconds) =>
        [.. Signals.Noise(frames, seed).Select((x, n) => x * Math.Pow(10, -3.0 * n / (seconds * 48000)))];
}
