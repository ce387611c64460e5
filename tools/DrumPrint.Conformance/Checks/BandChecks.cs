using System.Numerics;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>Bands that add up, and bands that move.</summary>
internal static class BandChecks
{
    public const string Note = """
        Read from the answer to a click, or to noise where bands are linear. Splits stand at 120 Hz, at 120 Hz and 2.5 kHz, at 90 Hz, 700 Hz and 5 kHz, and close
        together at 40, 60 and 18 000 Hz. A band alone is what a run with that band twice as loud has more than a plain one.
        """;

    private const string Linkwitz = "Linkwitz, JAES 24(1), 1976; D'Appolito, AES 76th Convention, 1984 (from memory)";
    private const string Difference = "Lipshitz and Vanderkooy, JAES 31(1/2), 1983 (from memory)";
    private const string Curve = "Giannoulis, Massberg and Reiss, JAES 60(6), 2012, eq. 4";
    private const string Part = "Regalia and Mitra, IEEE Trans. ASSP 35(1), 1987 (from memory)";

    private static readonly double[][] Splits = [[120], [120, 2500], [90, 700, 5000], [40, 60, 18000]];

    public static IEnumerable<Check> All() =>
    [
        .. from rate in new[] { 44100, 48000, 96000 }
           from slope in new[] { 24, 48 }
           select new Check("bands", $"empty bands at {EqChecks.Khz(rate)}, {slope} dB per octave: level of the sum, worst distance from 0 dB", Linkwitz, Bar.AtMost(0.01, "dB", 6), () => Flat(rate, slope)),
        .. from slope in new[] { 24, 48 }
           select new Check("bands", $"empty linear bands, {slope} dB per octave: what is left of noise after the signal is taken off", "definition: a null", Bar.AtMost(-140, "dB", 1), () => Null(slope)),
        .. from phase in new[] { "minimum", "linear" }
           from slope in new[] { 24, 48 }
           select new Check("bands", $"each of three bands, {phase} phase, {slope} dB per octave: level down to −80 dB, worst distance", phase == "linear" ? Difference : Linkwitz, Bar.AtMost(0.3, "dB", 3), () => Shape(phase, slope)),
        new("bands", "split at 150 Hz, 24 dB per octave, linear: how long it rings before a hit", "own figure", Bar.Told("ms", 1), () => PreRing(150, 24)),
        new("bands", "split at 150 Hz, 48 dB per octave, linear: the same", "own figure", Bar.Told("ms", 1), () => PreRing(150, 48)),
        new("dynamic_eq", "a tone in the middle of a bell, −60 to −6 dBFS, five curves: level, worst distance", Curve, Bar.AtMost(0.05, "dB", 4), Curves),
        new("dynamic_eq", "a soft tone beside the middle, while a loud one there is turned down: level, worst distance", Part, Bar.AtMost(0.2, "dB", 3), Beside),
        new("dynamic_eq", "bands under their threshold: what is left of noise after the signal is taken off", "definition: a null", Bar.AtMost(-140, "dB", 1), Untouched),
        new("dynamic_eq", "a tom whose 180 Hz rings 12 dB too loud: how much of the ring is taken, 50 to 250 ms after the stick", "own figure", Bar.Told("dB", 1), () => Tamed(RingingTom.RingHz, 2400, 12000)),
        new("dynamic_eq", "the same tom's own note at 110 Hz: how much of it is taken", "own figure", Bar.Told("dB", 1), () => Tamed(110, 2400, 12000)),
        new("dynamic_eq", "the same tom's stick, the first 4 ms above 2 kHz: change of energy", "own figure", Bar.Told("dB", 2), Stick),
    ];

    private static ProcessorStep Step(double[] splits, int slope, string phase, params Item[] items)
    {
        NumberParameter[] places = [Bands.Split, Bands.Split2, Bands.Split3];
        return Bands.Definition.With([.. splits.Select((s, i) => ((Parameter)places[i], (object)s)), (Bands.Slope, (double)slope), (Bands.Phase, phase), Bands.In.To(items)]);
    }

    private static double Flat(int rate, int slope) => Splits.Max(splits =>
    {
        var impulse = WholeSignal.Through([[1.0]], rate, Step(splits, slope, "minimum"))[0];
        return Response.AudibleFrequencies(80, 0.45 * rate).Max(f => Math.Abs(Spectrum.Decibels(Spectrum.ResponseAt(impulse, f, rate).Magnitude)));
    });

    private static double Null(int slope) => Splits.Max(splits =>
    {
        var noise = Signals.Noise(40000, 4);
        var output = WholeSignal.Through([noise], 48000, Step(splits, slope, "linear"))[0];
        return Spectrum.Decibels(noise.Zip(output, (a, b) => Math.Abs(a - b)).Max() / noise.Max(Math.Abs));
    });

    private static double Shape(string phase, int slope) => new[] { Bands.Low, Bands.Mid, Bands.High }.Max(band =>
    {
        double[] splits = [150, 3000];
        var click = Signals.Impulse(96000, at: 48000);
        var plain = WholeSignal.Through([click], 48000, Step(splits, slope, phase))[0];
        var louder = WholeSignal.Through([click], 48000, Step(splits, slope, phase, band.With((Bands.Level, 20 * Math.Log10(2)))))[0];
        double[] alone = [.. louder.Zip(plain, (a, b) => a - b)];
        return Response.AudibleFrequencies(80, 16000).Max(f =>
        {
            var expected = Spectrum.Decibels(Expected(band.Key, splits, slope, f, phase == "minimum"));
            return expected < -80 ? 0 : Math.Abs(Spectrum.Decibels(Spectrum.ResponseAt(alone, f, 48000).Magnitude) - expected);
        });
    });

    private static double Expected(string band, double[] splits, int slope, double f, bool isBilinear)
    {
        double Below(double split) => 1 / (1 + Math.Pow(isBilinear ? Math.Tan(Math.PI * f / 48000) / Math.Tan(Math.PI * split / 48000) : f / split, slope / 6.0));
        return band switch
        {
            "low" => Below(splits[0]),
            "mid" => isBilinear ? (1 - Below(splits[0])) * Below(splits[1]) : Below(splits[1]) - Below(splits[0]),
            _ => isBilinear ? (1 - Below(splits[0])) * (1 - Below(splits[1])) : 1 - Below(splits[1]),
        };
    }

    private static double PreRing(double split, int slope) =>
        ((Bands)Bands.Definition.Create(Step([split], slope, "linear").Settings, new ProcessorContext(new AudioFormat(48000, 1), 1))).PreRingMs;

    private static Item Bell(double freq, double q, double threshold, double ratio, double knee)
    {
        var bell = DynamicEq.Bell;
        return bell.With((bell.Freq, freq), (bell.Q!, q), (bell.Threshold, threshold), (bell.Ratio, ratio), (bell.Knee, knee), (bell.Release, 400.0));
    }

    private static double[] Late(double[] input, Item band) => WholeSignal.Through([input], 48000, DynamicEq.Definition.With(DynamicEq.Bands.To(band)))[0][48000..96000];

    private static double Curves() => new[] { (-40.0, 2.0, 0.0), (-24, 4, 0), (-24, 4, 12), (-10, 10, 6), (0, 3, 0) }.Max(curve =>
        new[] { -60.0, -30, -18, -6 }.Max(level =>
        {
            var (threshold, ratio, knee) = curve;
            var over = level - threshold;
            var expected = (2 * over) < -knee ? level
                : 2 * Math.Abs(over) <= knee ? level + (((1 / ratio) - 1) * (over + (knee / 2)) * (over + (knee / 2)) / (2 * knee))
                : threshold + (over / ratio);
            return Math.Abs(Level(Late(Tone(400, level), Bell(400, 2, threshold, ratio, knee)), 400) - expected);
        }));

    private static double Beside() => new[] { 100.0, 300, 800, 3000 }.Max(beside =>
    {
        var loud = Tone(400, -6);
        var band = Bell(400, 2, -40, 100, 0);
        var alone = Late(loud, band);
        var both = Late([.. loud.Zip(Tone(beside, -70), (a, b) => a + b)], band);
        var k = Math.Pow(10, (Level(alone, 400) + 6) / 20);
        var w = Math.Tan(Math.PI * beside / 48000) / Math.Tan(Math.PI * 400 / 48000);
        var part = new Complex(0, w / 2) / new Complex(1 - (w * w), w / 2);
        return Math.Abs(Level([.. both.Zip(alone, (a, b) => a - b)], beside) - (Spectrum.Decibels((1 + ((k - 1) * part)).Magnitude) - 70));
    });

    private static double Untouched()
    {
        var noise = Signals.Noise(40000, 4);
        var output = WholeSignal.Through([noise], 48000, DynamicEq.Definition.With(DynamicEq.Bands.To(Bell(300, 4, 20, 4, 0), Bell(5000, 1, 20, 4, 0))))[0];
        return Spectrum.Decibels(noise.Zip(output, (a, b) => Math.Abs(a - b)).Max() / noise.Max(Math.Abs));
    }

    private static double Tamed(double freq, int from, int to)
    {
        var tom = RingingTom.Samples(48000);
        var tamed = WholeSignal.Through([tom], 48000, RingingTom.Tamer())[0];
        return Level(tom[from..to], freq) - Level(tamed[from..to], freq);
    }

    private static double Stick()
    {
        var tom = RingingTom.Samples(48000);
        var tamed = WholeSignal.Through([tom], 48000, RingingTom.Tamer())[0];
        return 10 * Math.Log10(High(tamed) / High(tom));
    }

    private static double High(double[] samples) => Enumerable.Range(8, 60).Sum(k => Math.Pow(Spectrum.ResponseAt(samples.AsSpan(0, 192), k * 250, 48000).Magnitude, 2));

    private static double[] Tone(double freq, double level) => [.. Enumerable.Range(0, 96000).Select(n => Math.Pow(10, level / 20) * Math.Sin(2 * Math.PI * freq * n / 48000))];

    private static double Level(double[] samples, double freq) => Spectrum.Decibels(2 * Spectrum.ResponseAt(samples, freq, 48000).Magnitude / samples.Length);
}
