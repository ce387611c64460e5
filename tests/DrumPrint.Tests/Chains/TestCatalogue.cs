using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Tests.Chains;

/// <summary>
/// Processors that only exist to be named: every kind of parameter, a key, an impulse, two revisions. The tests of the file
/// format stand on these, so that a new parameter of a real processor changes none of them.
/// </summary>
internal static class TestCatalogue
{
    private static readonly NumberParameter Frequency = new("freq_hz", Unit.Hertz, 10, 20000, null, "Where it acts.") { IsRequired = true };

    private static readonly NumberParameter Gain = new("gain_db", Unit.Decibels, -24, 24, null, "How much.") { IsRequired = true };

    private static readonly NumberParameter Slope = new("slope_db_per_oct", Unit.DecibelsPerOctave, 6, 48, 12, "How steep.") { Steps = [6, 12, 18, 24] };

    private static readonly NumberParameter Width = new("q", Unit.None, 0.1, 20, 1, "How narrow.");

    private static readonly NumberParameter KeyHighPass = new("key_high_pass_hz", Unit.Hertz, 20, 2000, null, "High-pass before the detector.");

    public static IReadOnlyList<ProcessorDefinition> All { get; } =
    [
        Define("gain", 1, [new NumberParameter("level_db", Unit.Decibels, -120, 60, 0, "How much louder.")]),
        Define("eq", 1,
        [
            new ListParameter("bands", [new("high_pass", "Takes away the lows.", [Frequency, Slope]), new("bell", "Lifts or dips.", [Frequency, Gain, Width])], "The bands."),
        ]),
        Define("compress", 1,
        [
            new ChoiceParameter("topology", [new("feed_forward", "Looks at the input."), new("feedback", "Looks at the output.")], "feed_forward", "What is measured."),
            new NumberParameter("threshold_db", Unit.Decibels, -80, 0, -20, "Where it starts."),
            new NumberParameter("ratio", Unit.None, 1, 100, 4, "How hard."),
            new NumberParameter("attack_ms", Unit.Milliseconds, 0.01, 500, 10, "How fast it grips."),
            new NumberParameter("release_ms", Unit.Milliseconds, 1, 5000, 120, "How fast it lets go."),
            KeyHighPass,
        ], takesKey: true),
        Define("gate", 1, [new NumberParameter("open_db", Unit.Decibels, -120, 0, -36, "Where it opens.")], takesKey: true),
        Define("gate", 2,
        [
            new NumberParameter("open_db", Unit.Decibels, -120, 0, -36, "Where it opens."),
            new NumberParameter("hold_ms", Unit.Milliseconds, 0, 2000, 60, "How long it stays open."),
            new ToggleParameter("soft", true, "Whether it closes gently."),
        ], takesKey: true),
        Define("tape", 1,
        [
            new NumberParameter("oversampling", Unit.None, 2, 16, 8, "How many times the rate.") { Steps = [2, 4, 8, 16], IsWhole = true },
            new ChoiceParameter("speed_in_per_s", [new("15", "Fuller."), new("30", "Cleaner.")], "15", "How fast it runs."),
        ]),
        Define("convolve", 1, [new ImpulseParameter("impulse", "The room."), new NumberParameter("mix_pct", Unit.Percent, 0, 100, 100, "How much.")]),
    ];

    private static ProcessorDefinition Define(string key, int revision, IReadOnlyList<Parameter> parameters, bool takesKey = false) =>
        new(key, revision, $"Stands for {key}.", parameters, static (_, _) => throw new NotSupportedException()) { TakesKey = takesKey };
}
