using DrumPrint.Chains.Format;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Reading;

/// <summary>What a file gives for one processor.</summary>
/// <param name="Definition">Kind and revision.</param>
/// <param name="Settings">Null when something is wrong with them.</param>
/// <param name="Values">All that is given, the key included.</param>
internal sealed record StageValues(ProcessorDefinition Definition, Settings? Settings, Values Values)
{
    public string? Key => Definition.TakesKey ? Values.Text(StageKeys.KeyOf(Definition)) : null;

    public bool IsOff => Values.IsOn(StageKeys.Off);

    public Stage ToStage() => new(Definition, Settings!, Key, Values.Position.Line);
}
