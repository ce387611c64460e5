using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;
using DrumPrint.Tests.Demo;

namespace DrumPrint.Conformance.Checks;

/// <summary>Impulses that are shaped before they are used.</summary>
internal static class ConvolveShapes
{
    private const string Iso = "ISO 3382-1:2009, T30 by backward integration, octaves by Butterworth band-passes of the sixth order; 5 % as above";

    private static readonly (double Hz, double Pct)[] Asked = [(63, 140), (125, 130), (250, 110), (500, 90), (1000, 75), (2000, 60), (4000, 50), (8000, 42), (16000, 36)];

    private static readonly Lazy<(double[] Before, double[] After)> Octaves = new(() => (
        Response(Room()), Response(Room(), Convolve.Octaves.To([.. Asked.Select(a => Convolve.Octave.With(Convolve.Octave.Freq.To(a.Hz), Convolve.Octave.Decay.To(a.Pct)))]))));

    public static IEnumerable<Check> All() =>
    [
        .. Asked.Select(a => new Check(
            "convolve", FormattableString.Invariant($"octave at {a.Hz} Hz of a room asked to decay in {a.Pct} % of its time, each octave otherwise: T30, distance from that"), Iso, Bar.AtMost(5, "%", 2), () => DecayPct(a.Hz, a.Pct))),
        new("convolve", "octaves, early and late part named and left as they are: samples that differ", "own bar", Bar.Exactly(0, "samples"), Differing),
        new("convolve", "one octave 9 dB softer: level in its middle, and largest change in the middles of the others", "half a cosine in decibels over octaves, as documented", Bar.AtMost(0.01, "dB", 4), LevelDb),
        new("convolve", "reversed: largest difference from the impulse read from its end, to the peak", "definition", Bar.AtMost(SpectralTolerance.ConvolutionDb, "dB", 0, floor: -280), ReversedDb),
    ];

    private static double DecayPct(double hz, double pct)
    {
        var middle = hz is 63 ? 62.5 : hz;
        double T30(double[] response) => Reverberation.T30(OctaveFilter.Through(response, middle));
        return Math.Abs((100 * T30(Octaves.Value.After) / T30(Octaves.Value.Before) / pct) - 1) * 100;
    }

    private static double Differing()
    {
        var same = Response(
            Room(), Convolve.Octaves.To(Convolve.Octave.With(Convolve.Octave.Freq.To(500)), Convolve.Octave.With(Convolve.Octave.Freq.To(4000))), Convolve.Early.To(0), Convolve.Late.To(0), Convolve.Split.To(40));
        return same.Zip(Octaves.Value.Before, (a, b) => a == b ? 0 : 1).Sum();
    }

    private static double LevelDb()
    {
        var after = Response(Signals.Impulse(24000), Convolve.Octaves.To(Convolve.Octave.With(Convolve.Octave.Freq.To(1000), Convolve.Octave.Level.To(-9))));
        double Off(double hz, double want) => Math.Abs(Spectrum.Decibels(Spectrum.ResponseAt(after, hz, Run.SampleRate).Magnitude) - want);
        return Math.Max(Off(1000, -9), new[] { 125.0, 250, 500, 2000, 4000, 8000 }.Max(hz => Off(hz, 0)));
    }

    private static double ReversedDb()
    {
        var room = Room();
        var after = Response(room, Convolve.Reversed.To(true));
        return Spectrum.Decibels(after.Select((y, n) => Math.Abs(y - room[room.Length - 1 - n])).Max() / room.Max(Math.Abs));
    }

    private static double[] Room() => [.. Signals.Noise(96000, 21).Select((x, n) => x * Math.Pow(10, -3.0 * n / (1.2 * Run.SampleRate)))];

    // What a click makes of it, used as it is.
    private static double[] Response(double[] room, params (Parameter, object)[] settings)
    {
        var impulses = new Dictionary<string, Impulse> { ["room"] = new("room", Run.SampleRate, ImpulseLayout.Mono, [room]) };
        return WholeSignal.Through(
            [Signals.Impulse(room.Length)], Run.SampleRate, impulses, Convolve.Definition.With([(Convolve.ImpulseName, "room"), (Convolve.Level, "as_is"), .. settings]))[0][..room.Length];
    }
}
