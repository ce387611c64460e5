using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Dynamics;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>The limiter's ceiling, read by several readers of true peak, and its gain.</summary>
internal static class LimitChecks
{
    public const string Note = "Ceiling −1 dBTP. Hot signals: white noise, noise under 0.4 of the rate, hits, sincs off the samples, bursts of a sinc's signs, sines at 0.25 and 0.47 of the rate, clicks, a step; up to 17 dB over. Each is read by four interpolators of 20 to 800 taps a point.";

    private const string TruePeak = "ITU-R BS.1770-5, Annex 2, at 16 points a frame";
    private const double RestDb = -1.12;

    public static IEnumerable<Check> All() =>
    [
        .. new[] { 44100, 48000, 96000, 192000 }.Select(rate => new Check(
            "limit",
            FormattableString.Invariant($"hot signals at {rate / 1000.0} kHz, the processor's own defaults: highest true peak over the ceiling"),
            TruePeak,
            Bar.AtMost(0, "dB", 2),
            () => HighestOverDb(rate, []))),
        new("limit", "the same at 48 kHz, look-ahead 0.5 ms, no hold, release 1 ms", TruePeak, Bar.AtMost(0, "dB", 2), () => HighestOverDb(48000, [(Limit.Ahead, 0.5), (Limit.Hold, 0.0), (Limit.Release, 1.0)])),
        new("limit", "50 Hz turned down by 3 dB: distortion", "THD as IEC 60268-3 reckons it (from memory)", Bar.AtMost(0.3, "%", 4), () => DistortionPct(50, [])),
        new("limit", "30 Hz turned down by 3 dB, hold 20 ms: distortion", "THD as IEC 60268-3 reckons it (from memory)", Bar.AtMost(0.3, "%", 4), () => DistortionPct(30, [(Limit.Hold, 20.0)])),
        new("limit", "50 Hz turned down by 3 dB, no hold: distortion", "THD as IEC 60268-3 reckons it (from memory)", Bar.Told("%", 2), () => DistortionPct(50, [(Limit.Hold, 0.0)])),
        new("limit", "hits that stay under the ceiling: samples that are changed", "own bar", Bar.Exactly(0, "samples"), Changed),
        new("limit", "release 100 ms: time to 63 % of the way back, in decibels, after look-ahead and hold", "exponential in dB, as documented", Bar.Near(100, 4, "ms", 0), ReleaseMs),
    ];

    private static double HighestOverDb(int rate, (Parameter, object)[] values)
    {
        var step = new ProcessorStep(Limit.Definition, Settings.Of(Limit.Definition.Parameters, values));
        return HotSignals.All.Values.Max(signal => TruePeakReaders.HighestDb(WholeSignal.Through([signal], rate, step)[0]) + 1);
    }

    private static double DistortionPct(double freqHz, (Parameter, object)[] values)
    {
        var output = Steady.Through(Limit.Definition, Settings.Of(Limit.Definition.Parameters, values), [Signals.Sine(97000, freqHz, Steady.Amplitude(RestDb + 3), 0.3)])[0].AsSpan(48000, 48000).ToArray();
        return 100 * Math.Sqrt(Enumerable.Range(2, 19).Sum(h => Math.Pow(Spectrum.AmplitudeAt(output, h * freqHz), 2))) / Spectrum.AmplitudeAt(output, freqHz);
    }

    private static double Changed()
    {
        var input = Signals.Hits(24000, 6000, 900, seed: 5, level: 0.2);
        return Steady.Through(Limit.Definition, Settings.Of(Limit.Definition.Parameters), [input])[0].Where((y, n) => y != input[n]).Count();
    }

    // A slow rise and fall, which holds nothing high up: the last frame at the top is 9600.
    private static double ReleaseMs()
    {
        double[] input = [.. Enumerable.Range(0, 24000).Select(n => 0.1 + (1.6 * (1 - Math.Cos(Math.PI * Math.Clamp(Math.Min(n - 4800, 10080 - n) / 480.0, 0, 1))) / 2))];
        var settings = Settings.Of(Limit.Definition.Parameters, [(Limit.Hold, 20.0), (Limit.Release, 100.0)]);
        var gain = Steady.GainDb(Limit.Definition, settings, input);
        return Steady.TimeMs(gain, 9600, g => g > gain[9000] * Math.Exp(-1)) - 20 - 2;
    }
}
