using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Delivering.Sheet;
using DrumPrint.Language;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Delivering;

/// <summary>Says on one sheet what a mixer must know of a delivery.</summary>
internal sealed class SheetBuilder
{
    /// <summary>How the line of the plain text begins that names the version; the check of a received folder looks for it.</summary>
    public const string VersionStart = "- Version: ";

    /// <summary>How the line of the plain text begins that names the length.</summary>
    public const string LengthStart = "- Length: ";

    private const string Caution = "Before you listen: turn the volume down first. Crushed tracks carry more energy than their peaks suggest.";

    private readonly SheetFacts _facts;
    private readonly DeliveryManifest _manifest;
    private readonly Chain _chain;
    private readonly List<SheetBlock> _blocks = [];

    private SheetBuilder(SheetFacts facts)
    {
        _facts = facts;
        _manifest = facts.Manifest;
        _chain = facts.Chain;
    }

    public static SheetDocument Build(SheetFacts facts)
    {
        var builder = new SheetBuilder(facts);
        builder.Head();
        builder.Changes();
        builder.HowToCheck();
        builder.Prints();
        builder.Beside();
        builder.PanLaw();
        builder.DrumBus();
        builder.PolarityAndTime();
        builder.Microphones();
        builder.Recipes();
        builder.Findings();
        builder.Contact();
        return new SheetDocument(
            facts.Chain.Song.Title,
            string.Create(CultureInfo.InvariantCulture, $"Drum tracks for the mix, version {facts.Manifest.Version}. {VersionLine(facts.Manifest)}"),
            builder._blocks);
    }

    /// <summary>The length as it stands on the sheet.</summary>
    public static string Length(DeliveryManifest manifest) => string.Create(
        CultureInfo.InvariantCulture, $"{manifest.Frames} frames, {(double)manifest.Frames / manifest.RateHz:0.000} s, every file alike");

    private static string VersionLine(DeliveryManifest manifest) =>
        string.Create(CultureInfo.InvariantCulture, $"{manifest.Files.Count(f => f.Kind == DeliveredKind.Playing)} playing files that add up to the rough with every fader at 0.");

    private void Head()
    {
        Heading("The song");
        if (_chain.Song.Notes is { } notes)
        {
            _blocks.Add(new TextBlock(notes));
        }

        _blocks.Add(new ListBlock(
        [
            $"Version: v{Text(_manifest.Version)}",
            $"Length: {Length(_manifest)}",
            $"Rate and depth: {Text(_manifest.RateHz)} Hz, {EncodingWord(_manifest.Encoding)}",
            $"Left and right: {_chain.Song.Perspective switch { Perspective.Drummer => "the drummer's", Perspective.Audience => "those of whoever faces the kit", _ => "the chain does not say whose they are" }}",
            $"Tempo: {TempoWords()}",
        ]));
    }

    private string TempoWords()
    {
        if (_chain.Song.Tempo is not { IsMissing: false } tempo)
        {
            return "the chain names no tempo map";
        }

        var tempi = tempo.Stretches.Select(s => Show.Number(s.Bpm)).Distinct().ToList();
        var metres = tempo.Stretches.Select(s => $"{Text(s.Beats)}/{Text(s.BeatUnit)}").Distinct().ToList();
        return $"{Show.Some(tempi)} BPM, {Show.Some(metres)}; bars {Text(tempo.FirstBar)} to {Text(tempo.LastBar)}. Frame 0 is the start of bar {Text(tempo.FirstBar)}. The tempo files hold every bar";
    }

    private void Changes()
    {
        if (_manifest.SinceVersion is not { } since)
        {
            return;
        }

        Heading($"What changed since version {Text(since)}");
        _blocks.Add(new TextBlock(ReplaceWords(_manifest)));
        var rows = new List<string>();
        Add(rows, "Changed", DeliveredState.Changed);
        Add(rows, "New", DeliveredState.New);
        Add(rows, "Unchanged, proved by the hash of their samples", DeliveredState.Unchanged);
        if (_manifest.Withdrawn.Count > 0)
        {
            rows.Add($"Withdrawn: {string.Join(", ", _manifest.Withdrawn)}");
        }

        _blocks.Add(new ListBlock(rows));
        if (_manifest.Changes.Count > 0)
        {
            _blocks.Add(new ListBlock(_manifest.Changes));
        }
    }

    /// <summary>What to replace, in a sentence or two.</summary>
    public static string ReplaceWords(DeliveryManifest manifest)
    {
        var changed = Numbers(manifest, DeliveredState.Changed);
        var added = Numbers(manifest, DeliveredState.New);
        var same = manifest.Files.Any(f => f.State == DeliveredState.Unchanged);
        var version = Text(manifest.Version);
        var before = Text(manifest.SinceVersion!.Value);
        return $"v{version}: "
            + (changed.Count == 0 ? "no file of before has other samples." : $"replace {string.Join(", ", changed)}.")
            + (same ? $" The rest is identical to v{before}." : "")
            + (added.Count == 0 ? "" : $" New: {string.Join(", ", added)}.");
    }

    private static List<string> Numbers(DeliveryManifest manifest, DeliveredState state) =>
        [.. manifest.Files.Where(f => f.State == state).Select(f => f.Number!.Value.ToString("00", CultureInfo.InvariantCulture) + (f.Kind == DeliveredKind.Optional ? " (an extra, fader down)" : ""))];

    private void Add(List<string> rows, string word, DeliveredState state)
    {
        var names = _manifest.Files.Where(f => f.State == state).Select(Label).ToList();
        if (names.Count > 0)
        {
            rows.Add($"{word}: {string.Join(", ", names)}");
        }
    }

    private void HowToCheck()
    {
        Heading("How to check it, in three lines");
        _blocks.Add(new NoticeBlock(Caution));
        var playing = Of(DeliveredKind.Playing);
        var rough = First(DeliveredKind.Rough);
        var items = new List<string>
        {
            $"Put {Text(playing[0].Number!.Value, "00")} to {Text(playing[^1].Number!.Value, "00")} on tracks that start at the same place: faders at 0, mono files centred, stereo files hard left and right.",
        };
        if (rough is not null && _facts.Proof.Count > 0)
        {
            items.Add($"Add {Text(rough.Number!.Value, "00")} with its polarity turned over. You should hear nothing: what is left peaks at {Level(_facts.Proof.Min(p => p.LeftDbfs))} dBFS. If you raised anything to hear it, put that back before you turn the polarity back.");
        }

        items.Add("If it is not silent, look up your pan law below. That every byte arrived: sha256sum -c SHA256SUMS, or drumprint deliver --check and the folder.");
        _blocks.Add(new ListBlock(items, IsNumbered: true));
        _blocks.Add(new TextBlock("This proves that the files add up to the rough. It does not prove that the mix is good."));
    }

    private void Prints()
    {
        Heading("Every file to play");
        _blocks.Add(Table(
            [new("File", 4), new("Ch", 1.4), new("Keep", 2.2), new("Peak dBFS", 1.5, true), new("LUFS", 1.5, true), new("Crest dB", 1.4, true), new("Turned down", 3.4), new("In it, and what it is for", 7)],
            [.. Of(DeliveredKind.Playing).Select(Row)]));
        var first = _chain.Prints.Where(p => p.Keep == PrintKeep.FirstOut && !p.IsOptional).Select(p => $"{Text(p.Number, "00")} {p.Name}").ToList();
        var must = _chain.Prints.Where(p => p.Keep == PrintKeep.Must && !p.IsOptional).Select(p => $"{Text(p.Number, "00")} {p.Name}").ToList();
        if (must.Count > 0)
        {
            _blocks.Add(new TextBlock($"Must keep: {string.Join(", ", must)}."));
        }

        if (first.Count > 0)
        {
            _blocks.Add(new TextBlock($"If it is crowded, leave out first: {string.Join(", ", first)}."));
        }

        var extras = Of(DeliveredKind.Optional);
        if (extras.Count > 0)
        {
            Heading("Extras, not in the unity sum");
            _blocks.Add(new TextBlock("Leave their faders down to hear the rough; they are there in case you want them."));
            _blocks.Add(Table(
                [new("File", 4), new("Ch", 1.4), new("Keep", 2.2), new("Peak dBFS", 1.5, true), new("LUFS", 1.5, true), new("Crest dB", 1.4, true), new("Turned down", 3.4), new("In it, and what it is for", 7)],
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
            Label(file),
            file.Sound!.Channels == 1 ? "mono" : "stereo",
            print.Keep switch { PrintKeep.Must => "must keep", PrintKeep.Nice => "nice to have", PrintKeep.FirstOut => "leave out first", _ => "" },
            Level(sound.SamplePeakDbfs),
            Level(sound.IntegratedLufs),
            Level(sound.CrestDb),
            Reductions(reductions),
            $"{InIt(print.Bus)}.{(print.Notes is { } notes ? $" {notes}" : "")}",
        ];
    }

    // Of the print's own bus; where that only passes on another, as for a ride, of that one.
    private List<GainReduction> Own(IReadOnlyList<GainReduction> all, string bus)
    {
        var inside = _chain.Buses.First(b => b.Name == bus);
        return inside is { Stages.Count: 0, Feeds: [var only] } && _chain.Buses.Any(b => b.Name == only.Source)
            ? [.. all.Where(r => r.Bus == only.Source)]
            : [.. all.Where(r => r.Bus is null)];
    }

    private static string Reductions(IReadOnlyList<GainReduction> reductions) =>
        string.Join("; ", reductions.Select(r => $"{r.Processor}: median {Words.Number(r.MedianDb)}, most {Words.Number(r.LargestDb)} dB"));

    // The microphones behind a bus, each once, in the order of the chain.
    private string InIt(string bus)
    {
        var found = new HashSet<string>(StringComparer.Ordinal);
        var open = new Stack<string>([bus]);
        while (open.TryPop(out var name))
        {
            if (found.Add(name) && _chain.Buses.FirstOrDefault(b => b.Name == name) is { } inside)
            {
                inside.Feeds.Select(f => f.Source).ToList().ForEach(open.Push);
            }
        }

        return string.Join(", ", _chain.Tracks.Where(t => found.Contains(t.Name)).Select(t => t.Name));
    }

    private void Beside()
    {
        var rows = new List<IReadOnlyList<string>>();
        foreach (var file in _manifest.Files.Where(f => f.Kind is DeliveredKind.Rough or DeliveredKind.RoughWithBus or DeliveredKind.Click))
        {
            var sound = _facts.Sounds[file.Name];
            rows.Add([Label(file), Level(sound.SamplePeakDbfs), Level(sound.IntegratedLufs), Level(sound.CrestDb), file.Kind switch
            {
                DeliveredKind.Rough => "The sum of the playing files, before the drum bus: hold the files against it.",
                DeliveredKind.RoughWithBus => "The same through the drum bus below: for the ear.",
                _ => "Clicks on the beats of the tempo map.",
            }]);
        }

        if (rows.Count > 0)
        {
            Heading("Roughs and click");
            _blocks.Add(Table([new("File", 4), new("Peak dBFS", 1.5, true), new("LUFS", 1.5, true), new("Crest dB", 1.5, true), new("What it is", 8)], rows));
        }
    }

    private void PanLaw()
    {
        Heading("Pan law and proof of unity");
        var mono = Of(DeliveredKind.Playing).Where(f => f.Sound!.Channels == 1).Select(f => Text(f.Number!.Value, "00")).ToList();
        _blocks.Add(new TextBlock($"The rough takes a centred mono file at {Words.Number(_chain.Song.PanLawDb)} dB on each side. Mono files: {(mono.Count == 0 ? "none, so no pan law matters" : string.Join(" ", mono))}."));
        if (_facts.Proof.Count == 0)
        {
            _blocks.Add(new TextBlock("There is no rough before the drum bus in this delivery, so nothing was there to measure the sum against."));
            return;
        }

        _blocks.Add(new TextBlock("If your mixer turns centred mono files down, raise every mono file by the correction. Measured from the delivered files, read back: the sum less the rough, its peak in dBFS."));
        _blocks.Add(Table(
            [new("Centre of your pan law", 4), new("Exactly", 2, true), new("Raise mono by", 2.4, true), new("Left then", 2, true), new("Rounded", 2, true), new("Left then", 2, true), new("Left without", 2, true)],
            [.. _facts.Proof.Select(p => (IReadOnlyList<string>)[p.Name, Words.Number(p.CentreDb, 4), Words.Signed(p.CorrectionDb, 4), Level(p.LeftDbfs), Words.Signed(p.TypedDb), Level(p.LeftTypedDbfs), Level(p.LeftBareDbfs)])]));
        _blocks.Add(new TextBlock("An equal-power centre is −3.0103 dB, not −3: a correction rounded to a tenth leaves what stands beside it. That is soft enough to mix on; it is no proof."));
    }

    private void DrumBus()
    {
        if (_chain.DrumBus.Count == 0)
        {
            return;
        }

        Heading("The drum bus");
        if (_chain.DrumBusNotes is { } notes)
        {
            _blocks.Add(new TextBlock(notes));
        }

        _blocks.Add(new TextBlock("It is in no playing file; only the second rough goes through it. In this order, every value:"));
        _blocks.Add(new ListBlock([.. _chain.DrumBus.Select(StageWords.Of)], IsNumbered: true));
        if (_facts.Ticket.Prints.FirstOrDefault(p => p.Kind == PrintKind.RoughWithBus) is { GainReductions.Count: > 0 } withBus)
        {
            _blocks.Add(new TextBlock($"What it did to this song: {Reductions([.. withBus.GainReductions.Where(r => r.Bus is null)])}."));
        }

        if (First(DeliveredKind.Rough) is { } rough && First(DeliveredKind.RoughWithBus) is { } bus
            && _facts.Sounds[rough.Name].IntegratedLufs is { } before && _facts.Sounds[bus.Name].IntegratedLufs is { } after)
        {
            _blocks.Add(new TextBlock($"Loudness in and out: {Words.Number(before)} and {Words.Number(after)} LUFS, {Words.Signed(after - before)} LU."));
        }

        if (!DrumBusCurves.CanMeasure(_chain.DrumBus))
        {
            _blocks.Add(new TextBlock("It listens to another track or folds with an impulse, so it is not drawn."));
            return;
        }

        Curves();
    }

    private void Curves()
    {
        var response = DrumBusCurves.Response(_chain.DrumBus, _manifest.RateHz);
        var (low, high) = (Math.Floor((response.Min(p => p.Db) - 1) / 3) * 3, Math.Ceiling((response.Max(p => p.Db) + 1) / 3) * 3);
        low = Math.Max(low, high - 60);
        var step = high - low > 30 ? 12 : high - low > 12 ? 6 : 3;
        _blocks.Add(new CurveBlock(
            "Level against frequency, measured through the bus with an impulse of −60 dBFS, too soft to be turned down",
            new SheetAxis("Hz", response[0].Hz, response[^1].Hz, [.. new[] { 20.0, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000 }.Where(f => f <= response[^1].Hz * 1.0001 && f >= response[0].Hz * 0.9999).Select(f => (f, f >= 1000 ? $"{f / 1000:0}k" : $"{f:0}"))], true),
            new SheetAxis("dB", low, high, Marks(low, high, step)),
            response,
            null));
        var curve = DrumBusCurves.Static(_chain.DrumBus, _manifest.RateHz);
        _blocks.Add(new CurveBlock(
            "Level out against level in, measured through the bus with a steady 1 kHz tone; the thin line is no change",
            new SheetAxis("dBFS in", -60, 0, Marks(-60, 0, 12)),
            new SheetAxis("dBFS out", -60, 12, Marks(-60, 12, 12)),
            curve,
            [(-60, -60), (0, 0)]));
    }

    private static List<(double, string)> Marks(double from, double to, double step)
    {
        var marks = new List<(double, string)>();
        for (var at = Math.Ceiling(from / step) * step; at <= to; at += step)
        {
            marks.Add((at, Words.Number(at, 0)));
        }

        return marks;
    }

    private void PolarityAndTime()
    {
        Heading("Polarity and time");
        var turned = _chain.Tracks.Where(t => t.IsInverted).Select(t => t.Name).ToList();
        var moved = _chain.Tracks.Where(t => t.Delay.Amount > 0).Select(t => $"{t.Name} by {DelayWords(t.Delay)}").ToList();
        var inFeeds = _chain.Buses.SelectMany(b => b.Feeds.Where(f => f.IsInverted || f.Delay.Amount > 0)
            .Select(f => $"{f.Source} in {b.Name} ({string.Join(", ", new[] { f.IsInverted ? "polarity turned over" : null, f.Delay.Amount > 0 ? $"later by {DelayWords(f.Delay)}" : null }.OfType<string>())})")).ToList();
        var items = new List<string>
        {
            "Every file begins at the same frame and has the same length. Processing delay was taken out, so the files lie beside each other to the frame.",
            turned.Count == 0 ? "No microphone's polarity was turned over." : $"Polarity turned over against the recording: {string.Join(", ", turned)}.",
            moved.Count == 0 ? "No microphone was moved in time." : $"Moved later against the recording: {string.Join(", ", moved)}. All others lie as they were recorded.",
        };
        if (inFeeds.Count > 0)
        {
            items.Add($"Only where they feed these buses: {string.Join("; ", inFeeds)}.");
        }

        _blocks.Add(new ListBlock(items));
    }

    private static string DelayWords(Delay delay) => $"{Show.Number(delay.Amount)} {Dsp.Parameters.UnitText.Symbol(delay.Unit)}";

    private void Microphones()
    {
        Heading("Microphones");
        var hasNotes = _chain.Tracks.Any(t => t.Notes is not null);
        var inputs = _facts.Ticket.Tracks.ToDictionary(t => t.Name, StringComparer.Ordinal);
        _blocks.Add(Table(
            [new("Microphone", 3), new("Raw file", 4), new("Polarity", 1.6), new("Moved", 1.6), .. hasNotes ? [new SheetColumn("Where it stood", 5)] : Array.Empty<SheetColumn>()],
            [.. _chain.Tracks.Select(t => (IReadOnlyList<string>)
            [
                t.Name,
                Path.GetFileName(t.File) + (inputs.ContainsKey(t.Name) ? "" : " (not heard)"),
                t.IsInverted ? "inverted" : "as recorded",
                t.Delay.Amount > 0 ? DelayWords(t.Delay) : "",
                .. hasNotes ? [t.Notes ?? ""] : Array.Empty<string>(),
            ])]));
        if (!hasNotes)
        {
            _blocks.Add(new TextBlock("The chain gives no positions."));
        }
    }

    private void Recipes()
    {
        Heading("How each file was made");
        _blocks.Add(new TextBlock("Buses in the order of the chain: what feeds each, then its processors in order with every value. The ticket in this folder holds the same for a program."));
        _blocks.Add(new ListBlock([.. _chain.Buses.Select(b =>
            $"{b.Name}: from {string.Join(", ", b.Feeds.Select(f => $"{f.Source} {Words.Signed(f.LevelDb)} dB{(f.PanPct is { } pan ? $" panned {(pan < 0 ? "left" : pan > 0 ? "right" : "centre")} {Show.Number(Math.Abs(pan))} %" : "")}{(f.Rides.Count > 0 ? " (ridden)" : "")}"))}. {(b.Stages.Count == 0 ? "No processing." : string.Join(". ", b.Stages.Select(StageWords.Of)) + ".")}")]));
        _blocks.Add(new ListBlock([.. _chain.Prints.Select(p => $"{Text(p.Number, "00")} {p.Name} is {p.Bus} at {Words.Signed(p.LevelDb)} dB{(_facts.Ticket.TrimDb == 0 ? "" : $", and {Words.Signed(_facts.Ticket.TrimDb, 2)} dB like all others")}")]));
    }

    private void Findings()
    {
        if (_facts.Ticket.Findings.Count + _facts.Ticket.Notes.Count == 0)
        {
            return;
        }

        Heading("What was there to look at when it was printed");
        _blocks.Add(new ListBlock([.. _facts.Ticket.Findings, .. _facts.Ticket.Notes]));
    }

    private void Contact()
    {
        var lines = new List<string>();
        if (_facts.Credit is { } credit)
        {
            lines.Add($"Credit: {credit}");
        }

        if (_facts.Contact is { } contact)
        {
            lines.Add($"Contact: {contact}");
        }

        lines.Add($"Made with DrumPrint {_manifest.Engine}. Chain {_manifest.ChainSha256[..16]}.");
        Heading("Credit and contact");
        _blocks.Add(new ListBlock(lines));
    }

    // A column that says nothing takes no room.
    private static TableBlock Table(IReadOnlyList<SheetColumn> columns, IReadOnlyList<IReadOnlyList<string>> rows)
    {
        var used = Enumerable.Range(0, columns.Count).Where(i => rows.Any(r => r[i].Length > 0)).ToList();
        return new TableBlock([.. used.Select(i => columns[i])], [.. rows.Select(r => (IReadOnlyList<string>)[.. used.Select(i => r[i])])]);
    }

    private void Heading(string text) => _blocks.Add(new HeadingBlock(text));

    private IReadOnlyList<DeliveredFile> Of(DeliveredKind kind) => [.. _manifest.Files.Where(f => f.Kind == kind).OrderBy(f => f.Number)];

    private DeliveredFile? First(DeliveredKind kind) => _manifest.Files.FirstOrDefault(f => f.Kind == kind);

    private static string Label(DeliveredFile file) => $"{Text(file.Number!.Value, "00")} {file.Title}";

    private static string Level(double? db) => db is { } value ? Words.Number(value) : "silent";

    private static string Text(int number, string format = "0") => number.ToString(format, CultureInfo.InvariantCulture);

    private static string EncodingWord(SampleEncoding encoding) => encoding switch
    {
        SampleEncoding.Pcm16 => "16-bit",
        SampleEncoding.Pcm24 => "24-bit",
        SampleEncoding.Float32 => "32-bit float",
        _ => $"{encoding.Bits().ToString(CultureInfo.InvariantCulture)}-bit",
    };
}
