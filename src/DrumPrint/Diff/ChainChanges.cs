using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Writing;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Diff;

/// <summary>Finds every change from one chain, with its files, to another.</summary>
/// <remarks>In one order: new names, song, tempo, tracks, impulses, buses, prints, drum bus, output, run. Nothing that differs goes
/// unnamed: what has no words of its own is named by its place in the file.</remarks>
internal sealed partial class ChainChanges
{
    private readonly Made _a;
    private readonly Made _b;
    private readonly List<Change> _changes = [];
    private readonly IReadOnlyList<Rename> _renames;

    private ChainChanges(Made a, Made b)
    {
        _renames = Renames.Between(a.Chain, b.Chain, areWhole: a.Number is null && b.Number is null);
        _a = a.In(_renames);

        // A goal whose number has not been looked for yet is no other goal.
        _a = _a with { Chain = FoundNumbers.From(_a.Chain, b.Chain) };
        _b = b with { Chain = FoundNumbers.From(b.Chain, _a.Chain) };
    }

    public static IReadOnlyList<Change> Of(Made a, Made b)
    {
        var changes = new ChainChanges(a, b);
        changes.Find();
        var reaches = changes.Reaches();
        return [.. changes._changes.Select((c, i) => c with { Reaches = [.. reaches[i].Values] })];
    }

    private bool IsOfOnePrint => _a.Number is not null && _b.Number is not null;

    private void Find()
    {
        foreach (var (kind, from, to) in _renames)
        {
            Word(to, "name", from, to, kind == RenamedKind.Impulse ? ChangeScope.Impulse(to) : ChangeScope.Source(to));
        }

        Song();
        Tempo();
        Tracks();
        Impulses();
        Buses();
        Prints();
        foreach (var text in StageChanges.Of(_a.Chain.DrumBus, _b.Chain.DrumBus))
        {
            Add("drum bus", text, ChangeScope.Kind(PrintKind.RoughWithBus));
        }

        Notes("drum bus", _a.Chain.DrumBusNotes, _b.Chain.DrumBusNotes);
        Output();
        Accepted();
        Delivery();
        Reference();
        if (_changes.Count == 0 && ChainWriter.Canonical(_a.Chain) != ChainWriter.Canonical(_b.Chain))
        {
            foreach (var difference in ChainDifferences.Of(_a.Chain, "before", _b.Chain, "now"))
            {
                Add("chain", difference, ChangeScope.All);
            }
        }

        Run();
    }

    private void Song()
    {
        var (a, b) = (_a.Chain.Song, _b.Chain.Song);
        Word("song", "title", a.Title, b.Title, ChangeScope.All);
        Word("song", "code", a.Code, b.Code, ChangeScope.All);
        Number("song", SongKeys.Version, a.Version, b.Version, ChangeScope.All);
        Number("song", SongKeys.Rate, a.RateHz, b.RateHz, ChangeScope.All);
        Number("song", SongKeys.PanLaw, a.PanLawDb, b.PanLawDb, ChangeScope.All);
        Number("song", SongKeys.Temperature, a.TemperatureC, b.TemperatureC, ChangeScope.All);
        if (!IsOfOnePrint)
        {
            Word("song", "perspective", ChainWriter.PerspectiveWord(a.Perspective), ChainWriter.PerspectiveWord(b.Perspective), ChangeScope.None);
        }

        Notes("song", a.Notes, b.Notes);
    }

    private void Tempo()
    {
        var (a, b) = (_a.Chain.Song.Tempo, _b.Chain.Song.Tempo);
        if (a is null || b is null)
        {
            // A chain cut down to one print holds the map only if a ride or the click asks for it.
            if (!IsOfOnePrint && (a is not null || b is not null))
            {
                Add("tempo map", a is null ? $"{b!.File} added" : $"{a.File} left out", ChangeScope.Tempo);
            }

            return;
        }

        foreach (var text in TempoChanges.Of(a, b))
        {
            Add("tempo map", text, ChangeScope.Tempo);
        }
    }

    private void Tracks()
    {
        Named("track", _a.Chain.Tracks, _b.Chain.Tracks, t => t.Name, ChangeScope.Source, (a, b) =>
        {
            var scope = ChangeScope.Source(b.Name);
            Recordings(a, b, scope);
            Word(b.Name, "channel", Channel(a), Channel(b), scope);
            Number(b.Name, TrackKeys.Level, a.LevelDb, b.LevelDb, scope);
            Word(b.Name, "polarity", ChangeWords.Polarity(a.IsInverted), ChangeWords.Polarity(b.IsInverted), scope);
            if (a.Delay != b.Delay)
            {
                Add(b.Name, ChangeWords.Moved(a.Delay, b.Delay), scope);
            }

            Number(b.Name, TrackKeys.Latency, a.LatencyMs, b.LatencyMs, scope);
            Word(b.Name, "resampling", ChangeWords.Toggle(a.Convert), ChangeWords.Toggle(b.Convert), scope);
            if (a.At != b.At && !IsOfOnePrint)
            {
                Add(b.Name, $"{TrackKeys.At.Key} {a.At?.ToString() ?? "none"} → {b.At?.ToString() ?? "none"}", ChangeScope.None);
            }

            Notes(b.Name, a.Notes, b.Notes);
        });

        static string Channel(Track track) => track.Channel?.ToString() ?? "all of the file";
    }

    private void Impulses()
    {
        Named("impulse", _a.Chain.Impulses, _b.Chain.Impulses, i => i.Name, ChangeScope.Impulse, (a, b) =>
        {
            var scope = ChangeScope.Impulse(b.Name);
            Files(b.Name, a.File, b.File, RecordingChange.Input(_a.Impulses, b.Name), RecordingChange.Input(_b.Impulses, b.Name), scope);
            Word(b.Name, "layout", Layout(a), Layout(b), scope);
            if (!IsOfOnePrint)
            {
                Word(b.Name, "licence", a.Licence ?? "not said", b.Licence ?? "not said", ChangeScope.None);
                Word(b.Name, "may be passed on", a.MayBePassedOn ? "yes" : "no", b.MayBePassedOn ? "yes" : "no", ChangeScope.None);
            }

        });

        static string Layout(ImpulseFile impulse) => impulse.Layout switch
        {
            ImpulseLayout.Mono => "mono",
            ImpulseLayout.Stereo => "stereo",
            ImpulseLayout.TrueStereo => "true stereo",
            _ => "by its channels",
        };
    }

    private void Buses() => Named("bus", _a.Chain.Buses, _b.Chain.Buses, b => b.Name, ChangeScope.Source, (a, b) =>
    {
        foreach (var text in BusChanges.Of(a, b))
        {
            Add(b.Name, text, ChangeScope.Source(b.Name));
        }
    });

    private void Prints() => Named(
        "print",
        _a.Chain.Prints,
        _b.Chain.Prints,
        p => p.Number.ToString(CultureInfo.InvariantCulture),
        number => ChangeScope.Print(int.Parse(number, CultureInfo.InvariantCulture)),
        (a, b) =>
        {
            var scope = ChangeScope.Print(b.Number);
            Word(Label(b), "name", a.Name, b.Name, scope);
            Word(Label(b), "bus", a.Bus, b.Bus, scope);
            Number(Label(b), PrintKeys.Level, a.LevelDb, b.LevelDb, scope);
            Word(Label(b), "part of the rough", a.IsOptional ? "no" : "yes", b.IsOptional ? "no" : "yes", scope);
            if (!IsOfOnePrint)
            {
                Word(Label(b), "keep", ChainWriter.KeepWord(a.Keep), ChainWriter.KeepWord(b.Keep), ChangeScope.None);
            }

            Notes(Label(b), a.Notes, b.Notes);
        },
        Label);

    private static string Label(Print print) => Name(print.Number, print.Name);

    private void Output()
    {
        var (a, b) = (_a.Chain.Output, _b.Chain.Output);
        Word("output", "bits", EncodingKeys.Word(a.Encoding), EncodingKeys.Word(b.Encoding), ChangeScope.All);
        Word("output", "dither", Dither(a), Dither(b), ChangeScope.All);
        if (a.TailS != b.TailS)
        {
            var (from, to) = ChangeWords.Apart(Tail(a), Tail(b));
            Add("output", ChangeWords.Moved("tail", from, to), ChangeScope.All);
        }

        Number("output", OutputKeys.TailCap, a.TailCapS, b.TailCapS, ChangeScope.All);
        Word("output", "prints over 0 dBFS", a.LowerTogether ? "lowered together" : "refused", b.LowerTogether ? "lowered together" : "refused", ChangeScope.All);
        Word("output", "the peak that counts", a.OverAtTruePeak ? "true peak" : "largest sample", b.OverAtTruePeak ? "true peak" : "largest sample", ChangeScope.All);
        Beside(PrintKind.Rough, "rough", BesideKeys.Rough, a.Rough, b.Rough);
        Beside(PrintKind.RoughWithBus, "rough with bus", BesideKeys.RoughWithBus, a.RoughWithBus, b.RoughWithBus);
        Beside(PrintKind.Click, "click", BesideKeys.Click, a.Click, b.Click);

        static Func<Func<double, string>, string> Tail(OutputSettings output) => write => output.TailS is { } seconds ? $"{write(seconds)} s" : "measured";

        static string Dither(OutputSettings output) => output.Dither switch
        {
            null => "by word length",
            true => "triangular",
            _ => "none",
        };
    }

    private void Beside(PrintKind kind, string subject, BesideKeys keys, RoughPrint? a, RoughPrint? b)
    {
        var scope = ChangeScope.Kind(kind);
        if (a is null || b is null)
        {
            if (a is not null || b is not null)
            {
                Add(subject, a is null ? "added" : "left out", scope);
            }

            return;
        }

        Word(subject, "name", Name(a.Number, a.Name), Name(b.Number, b.Name), scope);
        Number(subject, keys.Level ?? FeedKeys.Level, a.LevelDb, b.LevelDb, scope);
    }

    // What a run settled on and a chain alone does not say.
    private void Run()
    {
        if (_a.Engine is { } engine && _b.Engine is { } other)
        {
            Word("engine", "version", engine, other, ChangeScope.All);
        }

        if (_a.Encoding is { } one && _b.Encoding is { } two && _a.Chain.Output.Encoding == _b.Chain.Output.Encoding)
        {
            Word("run", "bits", EncodingKeys.Word(one), EncodingKeys.Word(two), ChangeScope.All);
        }

        if (_a.Frames is { } frames && _b.Frames is { } now && frames != now)
        {
            Add("session", $"length {ChangeWords.Seconds(frames, _a.Chain.Song.RateHz)} → {ChangeWords.Seconds(now, _b.Chain.Song.RateHz)} s, so every print changes", ChangeScope.All);
        }

        if (_a.TrimDb is { } trim && _b.TrimDb is { } newTrim && trim != newTrim)
        {
            Add("session", $"all prints lowered together by {ChangeWords.Number(-trim)} → {ChangeWords.Number(-newTrim)} dB", ChangeScope.All);
        }
    }
}
