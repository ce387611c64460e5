using DrumPrint.Dsp.Resampling;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>Rate conversion against the sampling theorem.</summary>
internal static class ResampleChecks
{
    public const string Note = "What a conversion must give follows from the sampling theorem alone: the same sine, sampled at the new rate. Whatever else comes out is image, alias, ripple or shift, and all of it counts.";

    private const string Theorem = "sampling theorem";
    private static readonly (int From, int To)[] Rates = [(44100, 48000), (48000, 44100), (48000, 96000), (96000, 48000), (44100, 88200), (88200, 44100)];

    public static IEnumerable<Check> All() =>
    [
        .. Rates.SelectMany(r => new[]
        {
            new Check("resample", $"{Name(r)}: sines to 0.9 of the lower half rate, all that is not the sine, worst", Theorem, Bar.AtMost(SpectralTolerance.RateConversionDb, "dB", 0), () => SineDb(r.From, r.To)),
            new Check("resample", $"{Name(r)}: the same, level of the sine, worst distance", Theorem, Bar.AtMost(0.00001, "dB", 7), () => FlatDb(r.From, r.To)),
            new Check("resample", $"{Name(r)}: swept sine, 20 Hz to 0.9 of the lower half rate, all that is not the sweep", Theorem, Bar.AtMost(SpectralTolerance.RateConversionDb, "dB", 0), () => SweepDb(r.From, r.To)),
        }),
        .. Rates.Where(r => r.To < r.From).Select(r => new Check("resample", $"{Name(r)}: sines above the new half rate, what is left, worst", Theorem, Bar.AtMost(SpectralTolerance.RateConversionDb, "dB", 0), () => AboveDb(r.From, r.To))),
        .. Rates.Where(r => r.From < r.To).Select(r => new Check("resample", $"{Name(r)} and back: null in band", Theorem, Bar.AtMost(-145, "dB", 0), () => RoundTripDb(r.From, r.To))),
    ];

    private static string Name((int From, int To) r) => FormattableString.Invariant($"{r.From / 1000.0} → {r.To / 1000.0} kHz");

    private static IEnumerable<(double Freq, double[] Output)> Sines(int from, int to)
    {
        var upper = 0.9 * Math.Min(from, to) / 2;
        return new[] { 20, 997, 0.25 * upper, 0.5 * upper, 0.75 * upper, 0.95 * upper, upper }
            .Select(f => (f, RateConverter.Convert(Signals.Sine(from / 20, f, 1, 0.3, from), from, to)));
    }

    private static double SineDb(int from, int to) => Sines(from, to).Max(s => ErrorDb(s.Output, s.Output.Length / 4, n => Math.Sin((2 * Math.PI * s.Freq * n / to) + 0.3)));

    private static double FlatDb(int from, int to) => Sines(from, to).Max(s =>
    {
        var (edge, inPhase, power) = (s.Output.Length / 4, 0.0, 0.0);
        for (var n = edge; n < s.Output.Length - edge; n++)
        {
            var sine = Math.Sin((2 * Math.PI * s.Freq * n / to) + 0.3);
            inPhase += s.Output[n] * sine;
            power += sine * sine;
        }

        return Math.Abs(Spectrum.Decibels(inPhase / power));
    });

    private static double SweepDb(int from, int to)
    {
        var upper = 0.9 * Math.Min(from, to) / 2;
        double Sweep(double seconds) => Math.Sin(2 * Math.PI * ((20 * seconds) + ((upper - 20) / 2 * seconds * seconds)));
        var output = RateConverter.Convert([.. Enumerable.Range(0, from).Select(n => Sweep((double)n / from))], from, to);
        return ErrorDb(output, 4000, n => Sweep((double)n / to));
    }

    private static double AboveDb(int from, int to) => new[] { 0.0, 0.02, 0.1, 0.5, 0.95 }.Max(place =>
    {
        var output = RateConverter.Convert(Signals.Sine(from / 20, (to / 2.0) + (place * (from - to) / 2), 1, 0.3, from), from, to);
        return ErrorDb(output, output.Length / 4, _ => 0);
    });

    private static double RoundTripDb(int from, int other)
    {
        var input = new double[from / 4];
        for (var partial = 1; partial <= 40; partial++)
        {
            var sine = Signals.Sine(input.Length, partial * 0.9 * Math.Min(from, other) / 2 / 40, 0.025, partial, from);
            for (var n = 0; n < input.Length; n++)
            {
                input[n] += sine[n] * Math.Pow(Math.Sin(Math.PI * n / input.Length), 4);
            }
        }

        var back = RateConverter.Convert(RateConverter.Convert(input, from, other), other, from);
        return ErrorDb(back[..input.Length], 0, n => input[n]) - Spectrum.Decibels(input.Max(Math.Abs));
    }

    private static double ErrorDb(double[] output, int edge, Func<int, double> want) =>
        Spectrum.Decibels(Enumerable.Range(edge, output.Length - (2 * edge)).Max(n => Math.Abs(output[n] - want(n))));
}
