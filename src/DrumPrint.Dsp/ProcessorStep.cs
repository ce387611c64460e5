using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp;

/// <summary>One processor of a row with its settings.</summary>
public sealed record ProcessorStep(ProcessorDefinition Definition, Settings Settings)
{
    /// <summary>What its detector listens to instead of its own input: one array for each channel, lined up with the row's input.
    /// Null for its own input.</summary>
    public double[][]? Key { get; init; }
}
