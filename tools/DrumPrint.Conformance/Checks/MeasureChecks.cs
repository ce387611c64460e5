using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Tests.Support;
using DrumPrint.Measuring;

namespace DrumPrint.Conformance.Checks;

/// <summary>The figures of <c>measure</c>, from real files.</summary>
internal static class MeasureChecks
{
    public const string Note = """
        Every signal is written as a WAV file (24 bit; true peak 32-bit float) and measured as `drumprint measure` does. Test signals
        are those of EBU Tech 3341 v4 and Tech 3342, table 1 of each, read in reproductions; cases 7 and 8 of the one and 5 and 6 of the
        other need the EBU's own recordings. "Successively" means: after each part the file so far reads as expected.
        """;

    private const double Silence = double.NegativeInfinity;
    private const string Ebu = "EBU Tech 3341 v4, table 1";
    private const string Itu = "ITU-R BS.1770-5";

    public static IEnumerable<Check> All() =>
    [
        .. Steady(1, -23),
        .. Steady(2, -33),
        Integrated("case 3: 10 s −36, 60 s −23, 10 s −36", (10, -36), (60, -23), (10, -36)),
        Integrated("case 4: the same between 10 s of −72", (10, -72), (10, -36), (60, -23), (10, -36), (10, -72)),
        Integrated("case 5: 20 s −26, 20.1 s −20, 20 s −26", (20, -26), (20.1, -20), (20, -26)),
        new("measure", "case 6: 5 channels at −28, −28, −24, −30, −30: integrated", Ebu, Lufs(-23), () => Read([.. new[] { -28.0, -28, -24, -30, -30 }.Select(l => Tone(48000, [(20, l)]))]).IntegratedLufs!.Value),
        new("measure", "case 9: 1.34 s −20, 1.66 s −30, five times: short-term", Ebu, Lufs(-23), () => Stereo(Repeated(5, (1.34, -20), (1.66, -30))).ShortTermMaxLufs!.Value),
        new("measure", "case 9: from any tenth of a second on: short-term, the one furthest off", Ebu, Lufs(-23), () => FromAnywhere(30, 0.1, 3, [(1.34, -20), (1.66, -30)], s => s.ShortTermMaxLufs!.Value)),
        new("measure", "case 10: 3 s −23 after i·0.15 s of silence, 20 files: short-term, the one furthest off", Ebu, Lufs(-23), () => Furthest(-23, i => Stereo([(i * 0.15, Silence), (3, -23), (1, Silence)]).ShortTermMaxLufs!.Value)),
        new("measure", "case 11: rising from −38 to −19 by 1 LU, successively: short-term less expected, furthest off", Ebu, Lufs(0), () => Successive([0, 4, 9, 14, 19], 3, 0.15, s => s.ShortTermMaxLufs!.Value)),
        new("measure", "case 12: 0.18 s −20, 0.22 s −30, 25 times: momentary", Ebu, Lufs(-23), () => Stereo(Repeated(25, (0.18, -20), (0.22, -30))).MomentaryMaxLufs!.Value),
        new("measure", "case 12: from any hundredth of a second on: momentary, the one furthest off", Ebu, Lufs(-23), () => FromAnywhere(40, 0.01, 0.4, [(0.18, -20), (0.22, -30)], s => s.MomentaryMaxLufs!.Value)),
        new("measure", "case 13: 400 ms −23 after i·20 ms of silence, 20 files: momentary, the one furthest off", Ebu, Lufs(-23), () => Furthest(-23, i => Stereo([(i * 0.02, Silence), (0.4, -23), (1, Silence)]).MomentaryMaxLufs!.Value)),
        new("measure", "case 14: rising from −38 to −19 by 1 LU, successively: momentary less expected, furthest off", Ebu, Lufs(0), () => Successive(Enumerable.Range(0, 20), 0.4, 0.02, s => s.MomentaryMaxLufs!.Value)),
        SteadyPeak(15, 4, 0.50, 0, -6),
        SteadyPeak(16, 4, 0.50, 45, -6),
        SteadyPeak(17, 6, 0.50, 60, -6),
        SteadyPeak(18, 8, 0.50, 67.5, -6),
        SteadyPeak(19, 4, 1.41, 45, 3),
        .. Enumerable.Range(0, 4).Select(offset => new Check("measure", $"case {20 + offset}: one louder period, decimated from sample {offset}: true peak", Ebu, Bar.Between(0, MeterTolerance.TruePeakUnderDb, MeterTolerance.TruePeakOverDb, "dBTP", 2), () => TruePeak(TruePeakSignals.Faded(TruePeakSignals.Decimated(TruePeakSignals.OneLouderPeriod(9600), offset))))),
        .. new[] { (1, 10.0, new double[] { -20, -30 }), (2, 5, [-20, -15]), (3, 20, [-40, -20]), (4, 15, [-50, -35, -20, -35, -50]) }
            .Select(c => new Check("measure", $"range case {c.Item1}: 20 s each of {string.Join(", ", c.Item3).Replace('-', '−')}", "EBU Tech 3342, table 1", Bar.Near(c.Item2, 1, "LU", 2), () => Stereo([.. c.Item3.Select(l => (20.0, l))]).RangeLu!.Value)),
        new("measure", "absolute gate: a tone of −69.7 LUFS reads itself", Itu + ", eq. (5)", Lufs(-69.7), () => Stereo([(5, -69.7)]).IntegratedLufs ?? 0),
        new("measure", "absolute gate: readings of a tone of −70.3 LUFS", Itu + ", eq. (5)", Bar.Exactly(0, "readings"), () => Stereo([(5, -70.3)]).IntegratedLufs is null ? 0 : 1),
        new("measure", "calibration: 1 kHz stereo at −18 dBFS, integrated", "EBU Tech 3341, 2.9", Lufs(-18), () => Stereo([(10, -18)]).IntegratedLufs!.Value),
        new("measure", "0 dBFS, 997 Hz, one channel at 8 kHz: integrated, lower because the shelf's transform is pulled down there", "computed from the bilinear transform of the analog filter behind " + Itu + "'s tables (its constants from memory)", Bar.Near(-3.211, 0.005, "LUFS", 3), () => Read([Tone(8000, [(3.5, 0)], 997)], 8000).IntegratedLufs!.Value),
        .. new[] { 32000, 44100, 48000, 88200, 96000, 192000, 384000 }.Select(rate => new Check("measure", $"0 dBFS, 997 Hz, one channel at {Khz(rate)}: integrated", Itu, Bar.Near(-3.01, 0.05, "LUFS", 3), () => Read([Tone(rate, [(3.5, 0)], 997)], rate).IntegratedLufs!.Value)),
        .. new[] { 32000, 44100, 88200, 96000, 192000 }.Select(rate => new Check("measure", $"weighting at {Khz(rate)} against the table for 48 kHz, 20 Hz to 20 kHz, worst distance", Itu + ": the same response at other rates", Bar.AtMost(0.05, "dB", 3), () => WeightingDb(rate))),
        .. new[] { (44100, new[] { 1.530841230050, -2.650979995155, 1.169079079922, -1.663655113256, 0.712595428073, -1.989169673630, 0.989199035787 }), (48000, [1.53512485958697, -2.69169618940638, 1.19839281085285, -1.69065929318241, 0.73248077421585, -1.99004745483398, 0.99007225036621]), (96000, [1.559714228976, -2.926741578251, 1.378261202316, -1.844609469890, 0.855843322931, -1.995017544725, 0.995023759041]), (192000, [1.572227215091, -3.047283051562, 1.477971340980, -1.922202230607, 0.925117735117, -1.997507222841, 0.997508778356]) }
            .Select(c => c.Item1 == 48000
                ? new Check("measure", "weighting coefficients at 48 kHz: digits of the tables that differ", Itu + ", tables 1 and 2", Bar.Exactly(0, "digits"), () => DigitsOff(c.Item2))
                : new Check("measure", $"weighting coefficients at {Khz(c.Item1)}, largest difference in billionths of a thousandth", "computed from the analog filter behind " + Itu + "'s tables (its constants from memory)", Bar.AtMost(5, "· 10⁻¹²", 1), () => 1e12 * CoefficientError(c.Item1, c.Item2))),
        new("measure", "true peak of noise to 0.4 of the rate less a 16-times reference, six files: highest", Itu + ", annex 2", Bar.AtMost(0.02, "dB", 3), () => Enumerable.Range(1, 6).Max(NoisePeakError)),
        new("measure", "the same, lowest; the formula gives −0.436 dB at 0.4 of the rate", Itu + ", annex 2: 20 log cos(π f/n), n = 4", Bar.AtLeast(-0.436, "dB", 3), () => Enumerable.Range(1, 6).Min(NoisePeakError)),
        .. new[] { (0.25, -0.169), (0.4, -0.436) }.SelectMany(f => new[]
        {
            new Check("measure", FormattableString.Invariant($"true peak of a full-scale sine at {f.Item1} of the rate, 64 phases: lowest"), Itu + ", annex 2: 20 log cos(π f/n), n = 4", Bar.AtLeast(Math.Round(f.Item2 - 0.02, 3), "dB", 3) with { Expected = f.Item2.ToString(CultureInfo.InvariantCulture).Replace('-', '−') }, () => SinePeaks(f.Item1).Min()),
            new Check("measure", FormattableString.Invariant($"the same at {f.Item1}: highest"), "no over-read", Bar.AtMost(0.02, "dB", 3), () => SinePeaks(f.Item1).Max()),
        }),
        new("measure", "crest factor of a sine", "textbook: √2", Bar.Near(3.01, 0.01, "dB", 3), () => Stereo([(1, -6)]).CrestDb!.Value),
        new("measure", "offset of a sine with 0.25 added", "textbook: the mean", Bar.Near(0.25, 0.0001, "", 6), () => Read([[.. Tone(48000, [(1, -12)]).Select(x => x + 0.25)]]).Dc!.Value),
        .. new[] { (0, 1.0), (60, 0.5), (90, 0), (180, -1) }.Select(c => new Check("measure", $"correlation of two sines {c.Item1}° apart", "textbook: the cosine", Bar.Near(c.Item2, 0.0001, "", 4), () => Read([Tone(48000, [(1, -12)]), [.. Signals.Sine(48000, 1000, 0.25, c.Item1 * Math.PI / 180)]]).Correlation!.Value)),
        .. new[] { 0.3, 1.0, 2.5 }.Select(s => new Check("measure", FormattableString.Invariant($"decay of noise falling by 60 dB in {s} s"), "ISO 3382-1:2009, T30", Bar.AtMost(3, "%", 1), () => 100 * Math.Abs((Read([[.. Signals.Noise((int)(57600 * s), 5).Select((x, n) => x * Math.Pow(10, -3 * n / (48000 * s)))]]).DecayS!.Value / s) - 1))),
        new("measure", "active share of 1 s of sound, 1 s at −50 dB, 2 s of silence", "own definition: within 40 dB of the loudest 10 ms", Bar.Near(0.25, 0.003, "", 4), () => Read([Tone(48000, [(1, -10), (1, -60), (2, Silence)])]).ActiveShare!.Value),
    ];

    private static Bar Lufs(double expected) => Bar.Near(expected, MeterTolerance.LoudnessLu, expected == 0 ? "LU" : "LUFS", 3);

    private static IEnumerable<Check> Steady(int number, double level)
    {
        var sound = new Lazy<SoundReading>(() => Stereo([(20, level)]));
        var text = level.ToString(CultureInfo.InvariantCulture).Replace('-', '−');
        yield return new Check("measure", $"case {number}: 20 s {text}: integrated", Ebu, Lufs(level), () => sound.Value.IntegratedLufs!.Value);
        yield return new Check("measure", $"case {number}: short-term", Ebu, Lufs(level), () => sound.Value.ShortTermMaxLufs!.Value);
        yield return new Check("measure", $"case {number}: momentary", Ebu, Lufs(level), () => sound.Value.MomentaryMaxLufs!.Value);
    }

    private static Check Integrated(string claim, params (double, double)[] stretches) =>
        new("measure", $"{claim}: integrated", Ebu, Lufs(-23), () => Stereo(stretches).IntegratedLufs!.Value);

    private static Check SteadyPeak(int number, int divisor, double level, double degrees, double expected) => new(
        "measure",
        FormattableString.Invariant($"case {number}: rate/{divisor}, {level} of full scale, {degrees}°: true peak"),
        Ebu,
        Bar.Between(expected, MeterTolerance.TruePeakUnderDb, MeterTolerance.TruePeakOverDb, "dBTP", 2),
        () => TruePeak(TruePeakSignals.Faded(Signals.Sine(4800, 48000.0 / divisor, level, degrees * Math.PI / 180))));

    private static double Furthest(double expected, Func<int, double> reading) => Furthest(expected, 20, reading);

    private static double Furthest(double expected, int count, Func<int, double> reading) => Enumerable.Range(0, count).Select(reading).MaxBy(r => Math.Abs(r - expected));

    // As long as one reading, cut out of two changing levels at every step.
    private static double FromAnywhere(int cuts, double step, double length, (double, double)[] stretches, Func<SoundReading, double> reading)
    {
        var tone = Tone(48000, Repeated(3, stretches));
        return Furthest(-23, cuts, i =>
        {
            var cut = tone.AsSpan((int)Math.Round(i * step * 48000), (int)Math.Round(length * 48000)).ToArray();
            return reading(Read([cut, cut]));
        });
    }

    // Parts i·step s of silence, then length s at −38 + i, then silence up to twice the length.
    private static double Successive(IEnumerable<int> after, double length, double step, Func<SoundReading, double> reading) => after.Select(last =>
        reading(Stereo([.. Enumerable.Range(0, last + 1).SelectMany(i => new[] { (i * step, Silence), (length, -38.0 + i), (length - (i * step), Silence) })])) + 38 - last).MaxBy(Math.Abs);

    private static (double, double)[] Repeated(int times, params (double, double)[] stretches) => [.. Enumerable.Repeat(stretches, times).SelectMany(s => s)];

    private static double WeightingDb(int rate) => Response.AudibleFrequencies(top: Math.Min(20000, 0.45 * rate)).Max(f =>
        Math.Abs(Response.DbAt(KWeighting.Sections(rate), f, rate) - Response.DbAt(KWeighting.Sections(48000), f, 48000)));

    private static double CoefficientError(int rate, double[] expected)
    {
        var sections = KWeighting.Sections(rate);
        double[] ours = [sections[0].B0, sections[0].B1, sections[0].B2, sections[0].A1, sections[0].A2, sections[1].A1, sections[1].A2];
        return ours.Zip(expected, (a, b) => Math.Abs(a - b)).Max();
    }

    // The last of 14 decimals is the last one printed.
    private static double DigitsOff(double[] expected)
    {
        var sections = KWeighting.Sections(48000);
        double[] ours = [sections[0].B0, sections[0].B1, sections[0].B2, sections[0].A1, sections[0].A2, sections[1].A1, sections[1].A2];
        return ours.Zip(expected, (a, b) => a.ToString("F14", CultureInfo.InvariantCulture).Zip(b.ToString("F14", CultureInfo.InvariantCulture)).Count(d => d.First != d.Second)).Sum();
    }

    private static double NoisePeakError(int seed)
    {
        var noise = TruePeakSignals.BandLimited(Signals.Noise(600, (ulong)seed));
        return TruePeak(noise) - Spectrum.Decibels(TruePeakSignals.FinePeak(noise, 16));
    }

    private static double[] SinePeaks(double part) => [.. Enumerable.Range(0, 64).Select(i => TruePeak(TruePeakSignals.Faded(Signals.Sine(2400, 48000 * part, 1, Math.PI * i / 64))))];

    private static double TruePeak(double[] signal) => Read([signal], encoding: SampleEncoding.Float32).TruePeakDbtp!.Value;

    private static SoundReading Stereo((double, double)[] stretches)
    {
        var tone = Tone(48000, stretches);
        return Read([tone, tone]);
    }

    // A sine at given peak levels on one running phase.
    private static double[] Tone(int rate, (double Seconds, double PeakDb)[] stretches, double freqHz = 1000)
    {
        var levels = stretches.SelectMany(s => Enumerable.Repeat(Math.Pow(10, s.PeakDb / 20), (int)Math.Round(s.Seconds * rate)));
        return [.. levels.Select((level, n) => level * Math.Sin(2 * Math.PI * (freqHz * n / rate % 1)))];
    }

    private static SoundReading Read(double[][] channels, int rate = 48000, SampleEncoding encoding = SampleEncoding.Pcm24)
    {
        using var folder = new TemporaryFolder();
        SoundFiles.Write(folder.File("a.wav"), rate, encoding, channels);
        return FileMeter.Measure(folder.File("a.wav")).Sound;
    }

    private static string Khz(int rate) => FormattableString.Invariant($"{rate / 1000.0} kHz");
}
