using System.Runtime.CompilerServices;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>Finds buses that wait for each other, through feeds or keys, and names the whole circle.</summary>
/// <param name="problems">Gathers the mistakes.</param>
/// <param name="buses">All buses.</param>
/// <param name="tracks">Names of tracks: a name both a track and a bus carry is a mistake of its own, and no circle.</param>
internal sealed class BusCircles(ProblemList problems, IReadOnlyList<Values> buses, IReadOnlySet<string> tracks)
{
    // Each step is followed by a call within a call; the program's stack has room for these.
    private const int MostSteps = 30_000;

    private readonly Dictionary<string, Values> _byName = buses.Where(b => !tracks.Contains(b.Name)).ToDictionary(b => b.Name, StringComparer.Ordinal);
    private readonly HashSet<string> _done = new(StringComparer.Ordinal);
    private readonly List<Link> _path = [];
    private readonly HashSet<string> _onPath = new(StringComparer.Ordinal);
    private bool _isTooDeep;

    public void Run()
    {
        foreach (var bus in _byName.Values)
        {
            Visit(bus);
        }
    }

    // Depth first: a link back to a bus on the way there closes a circle, and without all such links none is left.
    private void Visit(Values bus)
    {
        if (_isTooDeep || _done.Contains(bus.Name))
        {
            return;
        }

        if (_path.Count == MostSteps || !RuntimeHelpers.TryEnsureSufficientExecutionStack())
        {
            _isTooDeep = true;
            problems.Add(bus.Position, bus.Place, FormattableString.Invariant($"a signal comes here through {_path.Count} buses in a row, and that is too many to follow. Let more of them feed one bus."));
            return;
        }

        _onPath.Add(bus.Name);
        foreach (var link in Links(bus))
        {
            _path.Add(link);
            if (_onPath.Contains(link.Source))
            {
                problems.Add(link.Position, link.Place, Circle(_path[_path.FindIndex(l => l.Bus == link.Source)..]));
            }
            else
            {
                Visit(_byName[link.Source]);
            }

            _path.RemoveAt(_path.Count - 1);
        }

        _onPath.Remove(bus.Name);
        _done.Add(bus.Name);
    }

    private IEnumerable<Link> Links(Values bus)
    {
        var feeds = bus.Entries(BusKeys.From).Select(f => new Link(bus.Name, f.Name, null, f.Position, f.Place));
        var keys = bus.Stages(BusKeys.Through).Where(s => s.Key is not null).Select(s => new Link(
            bus.Name, s.Key!, s.Definition.Key, s.Values.At(StageKeys.KeyOf(s.Definition)), s.Values.PlaceOf(StageKeys.KeyOf(s.Definition))));
        return feeds.Concat(keys).Where(l => _byName.ContainsKey(l.Source));
    }

    private static string Circle(List<Link> links) => links switch
    {
        [{ Processor: null } self] => $"bus '{Show.Name(self.Bus)}' feeds itself. Take this feed out.",
        [var self] => $"bus '{Show.Name(self.Bus)}' is its own key. Leave the key out: {self.Processor} listens to its own input anyway.",
        _ => $"these buses wait for each other in a circle: {Show.List([.. links.Select(Words)])}. Take one of these out.",
    };

    private static string Words(Link link)
    {
        var (bus, source) = (Show.Name(link.Bus), Show.Name(link.Source));
        return link.Processor is null ? $"'{bus}' takes in '{source}'" : $"'{bus}' has '{source}' as the key of {link.Processor}";
    }

    private sealed record Link(string Bus, string Source, string? Processor, Position Position, string Place);
}
