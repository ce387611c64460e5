using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Dsp.Processors;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A gate that flutters around its threshold.</summary>
internal sealed class Chatter : CheckRule
{
    public override Rule Rule { get; } = new(
        "G6",
        Severity.Warning,
        "The gate chatters",
        "more than 2 changes between open and closed within 50 ms",
        "Raise hold_ms, or put close_db further below open_db.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var gate in subject.Gates.Where(g => g.Stage.Settings[Gate.Action] == "gate"))
        {
            var changes = new List<int>();
            for (var i = 1; i < gate.Gains.Length; i++)
            {
                if ((gate.Gains[i] >= Half) != (gate.Gains[i - 1] >= Half))
                {
                    changes.Add(i);
                }
            }

            var places = changes.Zip(changes.Skip(2)).Where(c => c.Second - c.First <= Windows).Select(c => c.First / 100.0).ToList();
            if (places.Count > 0)
            {
                yield return Found(gate.Bus.Name, Words.Count(places.Count, "place"), $"The gate opens and closes more than twice within 50 ms in {Words.Count(places.Count, "place")}.") with { Count = places.Count, PlacesS = places };
            }
        }
    }

    private const double Half = 0.5;
    private const int Windows = 5;
}
