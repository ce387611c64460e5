using DrumPrint.Chains;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Session;

/// <summary>Cuts a chain down to what one print depends on.</summary>
/// <remarks>Order is kept, and cutting again changes nothing. What is off, notes for the mixer and the song's own mix stay behind: no print depends on them.</remarks>
internal static class ChainPart
{
    public static Chain Of(Chain chain, PrintTarget target)
    {
        IReadOnlyList<Print> prints = target.Kind switch
        {
            PrintKind.Playing or PrintKind.Optional => [target.Print!],
            PrintKind.Click => [],
            _ => [.. chain.Prints.Where(p => !p.IsOptional)],
        };
        var drumBus = target.Kind == PrintKind.RoughWithBus ? chain.DrumBus : [];
        var needed = Needed(chain, [.. prints.Select(p => p.Bus), .. Keys(drumBus)]);
        IReadOnlyList<Bus> buses = [.. chain.Buses.Where(b => needed.Contains(b.Name)).Select(b => b.Heard())];
        var impulses = buses.SelectMany(b => b.Stages).Concat(drumBus).SelectMany(Impulses).ToHashSet(StringComparer.Ordinal);
        var needsTempo = target.Kind == PrintKind.Click || buses.SelectMany(b => b.Feeds).SelectMany(f => f.Rides).Any(r => r.InBars);
        return chain with
        {
            Song = chain.Song with { Tempo = needsTempo ? chain.Song.Tempo : null, Perspective = Perspective.Unsaid, Notes = null },
            Tracks = [.. chain.Tracks.Where(t => needed.Contains(t.Name)).Select(t => t with { Notes = null, At = null })],
            Impulses = [.. chain.Impulses.Where(i => impulses.Contains(i.Name)).Select(i => i with { Licence = null, MayBePassedOn = false })],
            Buses = buses,
            Prints = [.. prints.Select(p => p with { Notes = null, Keep = PrintKeep.Unsaid })],
            DrumBus = drumBus,
            OffDrumBus = [],
            DrumBusNotes = null,
            Accepted = [],
            Delivery = DeliverySettings.None,
            Reference = null,
            Output = chain.Output with
            {
                Rough = target.Kind == PrintKind.Rough ? chain.Output.Rough : null,
                RoughWithBus = target.Kind == PrintKind.RoughWithBus ? chain.Output.RoughWithBus : null,
                Click = target.Kind == PrintKind.Click ? chain.Output.Click : null,
            },
        };
    }

    private static HashSet<string> Needed(Chain chain, IEnumerable<string> first)
    {
        var buses = chain.Buses.ToDictionary(b => b.Name, StringComparer.Ordinal);
        var needed = new HashSet<string>(StringComparer.Ordinal);
        var open = new Stack<string>(first);
        while (open.TryPop(out var name))
        {
            if (needed.Add(name) && buses.TryGetValue(name, out var bus))
            {
                foreach (var source in bus.Feeds.Select(f => f.Source).Concat(Keys(bus.Stages)))
                {
                    open.Push(source);
                }
            }
        }

        return needed;
    }

    private static IEnumerable<string> Keys(IReadOnlyList<Stage> stages) => stages.Select(s => s.Key).OfType<string>();

    private static IEnumerable<string> Impulses(Stage stage) => stage.Definition.Parameters.OfType<ImpulseParameter>().Select(p => stage.Settings[p]);
}
