using DrumPrint.Chains;
using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A filter with linear phase begins before the hit.</summary>
/// <remarks>What comes up to 20 ms before a louder sound is covered by it: H. Fastl and E. Zwicker, Psychoacoustics, chapter on masking (from
/// memory).</remarks>
internal sealed class EarlyRing : CheckRule
{
    private const double MostMs = 20;

    public override Rule Rule { get; } = new(
        "F8",
        Severity.Information,
        "A filter begins before the hit",
        "linear phase that rings for over 20 ms before a hit, down to 60 dB under the ring's loudest moment",
        "Listen to a soft hit alone. Take a gentler slope, a lower q, a higher frequency, or minimum phase.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        if (subject.Chain is not { } chain)
        {
            yield break;
        }

        foreach (var bus in chain.Buses)
        {
            foreach (var stage in bus.Stages)
            {
                if (PreRingMs(stage, chain.Song.RateHz) is > MostMs and var early)
                {
                    yield return Found(bus.Name, $"{Words.Number(early, 0)} ms", $"{stage.Definition.Key} with linear phase begins {Words.Number(early, 0)} ms before each hit. A louder hit covers about 20 ms of that.") with { Value = early };
                }
            }
        }
    }

    // Asked of the processor itself; one that cannot be made is told by the print.
    private static double PreRingMs(Stage stage, int rateHz)
    {
        try
        {
            return stage.Definition.Key == Eq.Definition.Key && stage.Settings[Eq.Phase] == "linear" ? ((Eq)Make(stage, rateHz)).PreRingMs
                : stage.Definition.Key == Bands.Definition.Key && stage.Settings[Bands.Phase] == "linear" ? ((Bands)Make(stage, rateHz)).PreRingMs
                : 0;
        }
        catch (SettingsException)
        {
            return 0;
        }
    }

    private static IProcessor Make(Stage stage, int rateHz) => stage.Definition.Create(stage.Settings, new ProcessorContext(new AudioFormat(rateHz, 2), 1));
}
