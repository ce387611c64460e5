using DrumPrint.Chains;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Session;

namespace DrumPrint.Comparing.Targets;

/// <summary>A drum bus that changes nothing, for a chain that is compared with one that has a drum bus. The second rough is
/// then held against the sum that goes into the bus.</summary>
internal static class OpenDrumBus
{
    /// <summary>The chain as it is heard beside another.</summary>
    public static Chain In(Chain chain, Chain other) => IsNeeded(chain, other)
        ? chain with
        {
            DrumBus = [new Stage(Gain.Definition, Settings.Of(Gain.Definition.Parameters), null, 0)],
            Output = chain.Output with { RoughWithBus = other.Output.RoughWithBus },
        }
        : chain;

    /// <summary>Whether only the other one has a drum bus that is printed, under a number that is free here.</summary>
    public static bool IsNeeded(Chain chain, Chain other) =>
        chain.DrumBus.Count == 0
        && other is { DrumBus.Count: > 0, Output.RoughWithBus: { } withBus }
        && PrintSelection.Of(chain, []).All.All(t => t.Number != withBus.Number);
}
