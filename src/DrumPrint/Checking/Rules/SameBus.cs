using DrumPrint.Chains.Writing;
using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A sound that counts twice.</summary>
internal sealed class SameBus : CheckRule
{
    public override Rule Rule { get; } = new(
        "J3",
        Severity.Warning,
        "One bus under two names",
        "the same feeds at the same levels through the same processors",
        "Keep one, and print it once.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        if (subject.Chain is not { } chain)
        {
            yield break;
        }

        var seen = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var bus in chain.Buses)
        {
            var text = ChainWriter.Canonical(chain with { Tracks = [], Impulses = [], Prints = [], DrumBus = [], Accepted = [], Buses = [bus with { Name = "" }] });
            if (!seen.TryAdd(text, bus.Name))
            {
                yield return Found(bus.Name, $"as '{seen[text]}'", $"The bus is the same as '{seen[text]}'.");
            }
        }
    }
}
