using System.Numerics;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>The linear form of the equaliser against its minimum one.</summary>
internal static class EqLinear
{
    private const string Minimum = "the minimum form, with the latency taken out";
    private const double LowestDb = -60;

    private static readonly (string Name, Item Band)[] Bands =
    [
        ("high-pass 40 Hz, 24 dB per octave", Eq.HighPass.With(Eq.HighPass.Freq.To(40), Eq.HighPass.Slope.To(24))),
        ("high-pass 100 Hz, 6 dB per octave", Eq.HighPass.With(Eq.HighPass.Freq.To(100), Eq.HighPass.Slope.To(6))),
        ("low-pass 9 kHz, 48 dB per octave", Eq.LowPass.With(Eq.LowPass.Freq.To(9000), Eq.LowPass.Slope.To(48))),
        ("bell 60 Hz +6 dB, q 4", Eq.Bell.With(Eq.Bell.Freq.To(60), Eq.Bell.Gain.To(6), Eq.Bell.Q.To(4))),
        ("bell 400 Hz −6 dB, q 1", Eq.Bell.With(Eq.Bell.Freq.To(400), Eq.Bell.Gain.To(-6))),
        ("high shelf 8 kHz +6 dB", Eq.HighShelf.With(Eq.HighShelf.Freq.To(8000), Eq.HighShelf.Gain.To(6))),
    ];

    public static IEnumerable<Check> All() =>
    [
        .. new[] { 44100, 48000, 96000, 192000 }.SelectMany(rate =>
        {
            var lazy = new Lazy<(double Db, double Degrees)>(() => Worst(rate));
            return new[]
            {
                new Check("eq", $"linear phase, six bands one by one at {EqChecks.Khz(rate)}: level, worst distance down to −60 dB", Minimum, Bar.AtMost(FilterTolerance.LinearDb, "dB", 4), () => lazy.Value.Db),
                new Check("eq", $"the same at {EqChecks.Khz(rate)}: phase left", Minimum, Bar.AtMost(FilterTolerance.LinearDegrees, "°", 6), () => lazy.Value.Degrees),
            };
        }),
        .. Bands.Select(b => new Check("eq", $"linear phase, {b.Name}: how long before a hit it rings, 48 kHz", "own figure", Bar.Told("ms", 1), () => RingMs(b.Band))),
    ];

    private static (double Db, double Degrees) Worst(int rate)
    {
        var distances = Bands.AsParallel().SelectMany(b =>
        {
            var (minimum, linear) = (Response("minimum", rate, b.Band), Response("linear", rate, b.Band));
            return Dsp.Tests.Support.Response.AudibleFrequencies(50, Math.Min(20000, 0.4535 * rate))
                .Select(f => (Minimum: minimum(f), Linear: linear(f)))
                .Where(p => Spectrum.Decibels(p.Minimum.Magnitude) > LowestDb)
                .Select(p => (Db: Math.Abs(Spectrum.Decibels((p.Linear / p.Minimum).Magnitude)), Degrees: Math.Abs(p.Linear.Phase) * 180 / Math.PI)).ToArray();
        }).ToArray();
        return (distances.Max(d => d.Db), distances.Max(d => d.Degrees));
    }

    private static double RingMs(Item band) => ((Eq)Eq.Definition.Create(Step("linear", band).Settings, new ProcessorContext(new AudioFormat(48000, 1), 1))).PreRingMs;

    private static ProcessorStep Step(string phase, Item band) => Eq.Definition.With(Eq.Phase.To(phase), Eq.Bands.To(band));

    private static Func<double, Complex> Response(string phase, int rate, Item band)
    {
        var processor = Eq.Definition.Create(Step(phase, band).Settings, new ProcessorContext(new AudioFormat(rate, 1), 1));
        var impulse = Run.Through(processor, [[1.0]], 1, extraFrames: (int)(processor.LatencyFrames + processor.TailFrames))[0];
        return freq => Spectrum.ResponseAt(impulse, freq, rate) * Complex.FromPolarCoordinates(1, 2 * Math.PI * freq / rate * processor.LatencyFrames);
    }
}
