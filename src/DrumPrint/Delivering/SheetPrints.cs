using DrumPrint.Chains;
using DrumPrint.Delivering.Sheet;
using DrumPrint.Language;
using DrumPrint.Session;

namespace DrumPrint.Delivering;

/// <summary>The pieces of a sheet that tell of each sound file.</summary>
internal sealed class SheetPrints
{
    private static readonly SheetColumn[] PrintColumns =
        [new("File", 4), new("Ch", 1.4), new("Keep", 2.2), new("Peak dBFS", 1.5, true), new("LUFS", 1.5, true), new("Crest dB", 1.4, true), new("Turned down", 3.4), new("In it, and what it is for", 7)];

    private readonly SheetFacts _facts;
    private readonly DeliveryManifest _manifest;
    private readonly Chain _chain;
    private readonly List<SheetBlock> _blocks = [];

    private SheetPrints(SheetFacts facts)
    {
        _facts = facts;
        _manifest = facts.Manifest;
        _chain = facts.Chain;
    }

    public static IReadOnlyList<SheetBlock> Of(SheetFacts facts)
    {
        var prints = new SheetPrints(facts);
        prints.Prints();
        prints.Beside();
        return prints._blocks;
    }

    private void Prints()
    {
        _blocks.Add(new HeadingBlock("Every file to play"));
        _blocks.Add(SheetWords.Table(
            PrintColumns,
            [.. _manifest.Of(DeliveredKind.Playing).Select(Row)]));
        var first = _chain.Prints.Where(p => p.Keep == PrintKeep.FirstOut && !p.IsOptional).Select(p => $"{SheetWords.Text(p.Number, "00")} {p.Name}").ToList();
        var must = _chain.Prints.Where(p => p.Keep == PrintKeep.Must && !p.IsOptional).Select(p => $"{SheetWords.Text(p.Number, "00")} {p.Name}").ToList();
        if (must.Count > 0)
        {
            _blocks.Add(new TextBlock($"Must keep: {string.Join(", ", must)}."));
        }

        if (first.Count > 0)
        {
            _blocks.Add(new TextBlock($"If it is crowded, leave out first: {string.Join(", ", first)}."));
        }

        var extras = _manifest.Of(DeliveredKind.Optional);
        if (extras.Count > 0)
        {
            _blocks.Add(new HeadingBlock("Extras, not in the unity sum"));
            _blocks.Add(new TextBlock("Leave their faders down to hear the rough; they are there in case you want them."));
            _blocks.Add(SheetWords.Table(
                PrintColumns,
                [.. extras.Select(Row)]));
        }
    }

    private IReadOnlyList<string> Row(DeliveredFile file)
    {
        var print = _chain.Prints.First(p => p.Number == file.Number);
        var sound = _facts.Sounds[file.Name];
        var reductions = Own(_facts.Ticket.Prints.First(p => p.Number == file.Number).GainReductions, print.Bus);
        return
        [
            SheetWords.Label(file),
            file.Side != SoundSide.Whole ? ManifestKeys.Word(file.Side) : file.Sound!.Channels == 1 ? "mono" : "stereo",
            print.Keep switch { PrintKeep.Must => "must keep", PrintKeep.Nice => "nice to have", PrintKeep.FirstOut => "leave out first", _ => "" },
            SheetWords.Level(sound.SamplePeakDbfs),
            SheetWords.Level(sound.IntegratedLufs),
            SheetWords.Level(sound.CrestDb),
            SheetWords.Reductions(reductions),
            What(print),
        ];
    }

    /// <summary>What is in a file, and what it is for.</summary>
    public static string What(SheetFacts facts, DeliveredFile file) =>
        facts.Chain.Prints.FirstOrDefault(p => p.Number == file.Number) is { } print ? new SheetPrints(facts).What(print) : Beside(file.Kind);

    private string What(Print print) => $"{InIt(print.Bus)}.{(print.Notes is { } notes ? $" {notes}" : "")}";

    private static string Beside(DeliveredKind kind) => kind switch
    {
        DeliveredKind.Rough => "The sum of the playing files, before the drum bus: hold the files against it.",
        DeliveredKind.RoughWithBus => "The same through the drum bus below: for the ear.",
        _ => "Clicks on the beats of the tempo map.",
    };

    // Of the print's own bus; where that only passes on another, as for a ride, of that one.
    private List<GainReduction> Own(IReadOnlyList<GainReduction> all, string bus)
    {
        var inside = _chain.Buses.First(b => b.Name == bus);
        return inside is { Stages.Count: 0, Feeds: [var only] } && _chain.Buses.Any(b => b.Name == only.Source)
            ? [.. all.Where(r => r.Bus == only.Source)]
            : [.. all.Where(r => r.Bus is null)];
    }

    // The microphones behind a bus, each once, in the order of the chain.
    private string InIt(string bus)
    {
        var buses = FeedingBuses.Of(_chain, bus).ToHashSet(StringComparer.Ordinal);
        var sources = _chain.Buses.Where(b => buses.Contains(b.Name)).SelectMany(b => b.Feeds).Select(f => f.Source).ToHashSet(StringComparer.Ordinal);
        return string.Join(", ", _chain.Tracks.Where(t => sources.Contains(t.Name)).Select(t => t.Name));
    }

    private void Beside()
    {
        var rows = new List<IReadOnlyList<string>>();
        foreach (var file in _manifest.Files.Where(f => f.Kind is DeliveredKind.Rough or DeliveredKind.RoughWithBus or DeliveredKind.Click))
        {
            var sound = _facts.Sounds[file.Name];
            rows.Add([SheetWords.Label(file), SheetWords.Level(sound.SamplePeakDbfs), SheetWords.Level(sound.IntegratedLufs), SheetWords.Level(sound.CrestDb), Beside(file.Kind)]);
        }

        if (rows.Count > 0)
        {
            _blocks.Add(new HeadingBlock("Roughs and click"));
            _blocks.Add(SheetWords.Table([new("File", 4), new("Peak dBFS", 1.5, true), new("LUFS", 1.5, true), new("Crest dB", 1.5, true), new("What it is", 8)], rows));
        }
    }
}
