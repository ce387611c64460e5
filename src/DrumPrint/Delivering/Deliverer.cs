using System.Text;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Delivering.Sheet;
using DrumPrint.Dsp.Metering;
using DrumPrint.Files;
using DrumPrint.Language;
using DrumPrint.Measuring;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Delivering;

/// <summary>Makes one folder that a mixer can trust: prints that the ticket vouches for, tempo, sheet, manifest.</summary>
/// <remarks>Nothing in it depends on clock, machine or path. All is made under a temporary name and takes its own in one step; a delivery that is
/// there is never overwritten.</remarks>
public sealed partial class Deliverer
{
    // Rounding of any word length leaves far less; the rule that check has for it, H1.
    private const double MostLeftDbfs = -60;

    private readonly Chain _chain;
    private readonly DeliveryOptions _options;
    private readonly Action<string, double>? _progress;
    private readonly CancellationToken _cancel;
    private readonly List<string> _notes = [];
    private readonly List<string> _written = [];

    private Deliverer(Chain chain, DeliveryOptions options, Action<string, double>? progress, CancellationToken cancel)
    {
        _chain = chain;
        _options = options;
        _progress = progress;
        _cancel = cancel;
    }

    /// <summary>Delivers the prints of a chain.</summary>
    /// <param name="chain">A checked chain, printed as it is.</param>
    /// <param name="options">What it is made of, and where it goes.</param>
    /// <param name="progress">Told what is done and how far it is.</param>
    /// <param name="cancel">Stops it; nothing is left half-written.</param>
    /// <exception cref="UsageException">The prints are not those of the chain, or another delivery of this version is there; the message says what to do.</exception>
    /// <exception cref="DrumPrintException">A file cannot be read or used.</exception>
    /// <exception cref="IOException">A file cannot be written.</exception>
    public static DeliveryReport Deliver(Chain chain, DeliveryOptions options, Action<string, double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(chain);
        ArgumentNullException.ThrowIfNull(options);
        return new Deliverer(chain, options, progress, cancel).Run();
    }

    private DeliveryReport Run()
    {
        var prints = ProvedPrints.Find(_chain, _options.PrintsFolder);
        return HeldPlace.With(_options.To, "delivery", "deliver", _options.Steps, () => Run(prints, Revision.Find(_chain.Song, _options.To, _options.Since)));
    }

    private DeliveryReport Run(ProvedPrints prints, Revision? revision)
    {
        using var staged = new StagedFolder(_options.To, _options.Steps);
        var (sounds, readings, outlines) = Sounds(staged, prints);
        var proof = Proof(staged, sounds);
        var manifest = Manifest(prints, [.. sounds, .. Others(staged, prints)], revision);
        var facts = new SheetFacts
        {
            Manifest = manifest,
            Ticket = prints.Ticket,
            Sounds = readings,
            Outlines = outlines,
            Proof = proof,
            Contact = _options.Contact,
            Credit = _options.Credit,
        };
        manifest = manifest with { Files = [.. manifest.Files, .. Sheets(staged, SheetBuilder.Build(facts)), Write(staged, Named("listen.html"), DeliveredKind.Page, Encoding.UTF8.GetBytes(ReceiverPage.Of(facts)))] };
        staged.Seal(manifest);
        Publish(staged, manifest);
        var folder = Path.Combine(_options.To, manifest.FolderName);
        if (_options.Since is not null)
        {
            Changed(folder, manifest);
        }

        foreach (var stray in prints.Strays(_chain))
        {
            _notes.Add($"{stray} lies beside the prints and is none of this chain's, so it was not delivered.");
        }

        if (proof.Count == 0)
        {
            _notes.Add("There is no rough before the drum bus, so it was not measured that the files add up.");
        }

        return new DeliveryReport(manifest, _written, proof, _notes);
    }

    // Each print is copied and then read back: what is told of it, its proof and its hashes, is told of the delivered file.
    private (IReadOnlyList<DeliveredFile> Files, IReadOnlyDictionary<string, SoundReading> Readings, IReadOnlyDictionary<string, WaveOutline> Outlines) Sounds(StagedFolder staged, ProvedPrints prints)
    {
        var recorded = prints.Ticket.Prints;
        for (var i = 0; i < recorded.Count; i++)
        {
            _progress?.Invoke("Copying", (double)i / recorded.Count);
            var source = Path.Combine(prints.Folder, recorded[i].FileName);
            if (!File.Exists(source))
            {
                throw new UsageException($"{source}: the ticket names this print, and it is not there. Print again: drumprint print {_chain.Path}");
            }

            staged.Copy(source, NameOf(recorded[i]), _cancel);
        }

        var files = new DeliveredFile[recorded.Count];
        var readings = new SoundReading[recorded.Count];
        var outlines = new WaveOutline[recorded.Count];
        var done = 0;
        try
        {
            Parallel.For(0, recorded.Count, new ParallelOptions { CancellationToken = _cancel, MaxDegreeOfParallelism = Environment.ProcessorCount }, i =>
            {
                var path = staged.PathOf(NameOf(recorded[i]));
                files[i] = Sound(path, recorded[i], prints);
                outlines[i] = WaveOutline.Of(path, _cancel);
                readings[i] = FileMeter.Measure(path, null, _cancel).Sound;
                _progress?.Invoke("Reading back", (double)Interlocked.Increment(ref done) / recorded.Count);
            });
        }
        catch (AggregateException e)
        {
            throw e.InnerExceptions.OfType<DrumPrintException>().OrderBy(x => x.Message, StringComparer.Ordinal).FirstOrDefault() ?? e.InnerExceptions[0];
        }

        return (files, ByName(readings), ByName(outlines));

        Dictionary<string, T> ByName<T>(T[] each) => recorded.Select((p, i) => (Name: NameOf(p), Value: each[i])).ToDictionary(p => p.Name, p => p.Value, StringComparer.Ordinal);
    }

    private DeliveredFile Sound(string path, RecordedPrint print, ProvedPrints prints)
    {
        using var reader = Opened(path, print, prints);
        if (reader.Info.Channels > 2)
        {
            throw prints.NotProved(print, _chain);
        }

        using var sums = SoundSums.Of(reader, prints.Ticket.Encoding, _cancel);
        var audio = sums.AudioSha256();
        if (reader.FileSha256 != print.FileSha256 || audio != print.AudioSha256 || reader.Info.Frames != prints.Ticket.Frames || reader.Info.Channels != print.Channels || reader.Info.SampleRate != _chain.Song.RateHz)
        {
            throw prints.NotProved(print, _chain);
        }

        return new DeliveredFile(Path.GetFileName(path), DeliveredKinds.Of(print.Kind), new FileInfo(path).Length, print.FileSha256)
        {
            Number = print.Number,
            Title = print.Name,
            Sound = new DeliveredSound(reader.Info.Channels, reader.Info.Frames, prints.Ticket.Encoding, audio, string.Concat(sums.Pieces)),
        };
    }

    private AudioReader Opened(string path, RecordedPrint print, ProvedPrints prints)
    {
        try
        {
            return AudioReader.Open(path, AudioHashes.File);
        }
        catch (AudioFileException)
        {
            throw prints.NotProved(print, _chain);
        }
    }

    private IReadOnlyList<PanLawLine> Proof(StagedFolder staged, IReadOnlyList<DeliveredFile> sounds)
    {
        _progress?.Invoke("Proving that they add up", 0);
        var proof = sounds.FirstOrDefault(s => s.Kind == DeliveredKind.Rough) is { } rough
            ? UnityProof.Measure([.. sounds.Where(s => s.Kind == DeliveredKind.Playing).Select(s => staged.PathOf(s.Name))], staged.PathOf(rough.Name), _chain.Song.PanLawDb, _cancel)
            : [];
        return proof.Count > 0 && proof.Min(l => l.LeftDbfs) > MostLeftDbfs
            ? throw new UsageException(FormattableString.Invariant($"{_chain.Path}: the prints do not add up to the rough; {proof.Min(l => l.LeftDbfs):0.0} dBFS is left at its peak. Somebody changed a print and its ticket. Print again: drumprint print {_chain.Path} --anew"))
            : proof;
    }

    private List<DeliveredFile> Others(StagedFolder staged, ProvedPrints prints)
    {
        var song = _chain.Song;
        var files = new List<DeliveredFile>();
        if (song.Tempo is { IsMissing: false } whole)
        {
            var tempo = whole.UpTo((double)prints.Ticket.Frames / song.RateHz);
            files.Add(Write(staged, Named("tempo.mid"), DeliveredKind.Tempo, TempoFiles.Midi(tempo, song.Title)));
            files.Add(Write(staged, Named("tempo.txt"), DeliveredKind.Tempo, Encoding.UTF8.GetBytes(TempoFiles.Text(tempo, song))));
        }

        files.Add(Write(staged, Ticket.FileName(song), DeliveredKind.Ticket, prints.TicketText));
        return files;
    }

    private List<DeliveredFile> Sheets(StagedFolder staged, SheetDocument sheet)
    {
        _progress?.Invoke("Writing the sheet", 0);
        return
        [
            Write(staged, Named("sheet.html"), DeliveredKind.Sheet, Encoding.UTF8.GetBytes(SheetHtml.Of(sheet))),
            Write(staged, Named("sheet.pdf"), DeliveredKind.Sheet, SheetPdf.Of(sheet)),
            Write(staged, Named("sheet.txt"), DeliveredKind.Sheet, Encoding.UTF8.GetBytes(SheetText.Of(sheet))),
        ];
    }

    private string NameOf(RecordedPrint print) => DeliveredName.Of(_chain, print);

    private string Named(string end) => FormattableString.Invariant($"{_chain.Song.Code}_v{_chain.Song.Version}_{end}");

    private static DeliveredFile Write(StagedFolder staged, string name, DeliveredKind kind, byte[] bytes)
    {
        staged.Write(name, bytes);
        return new DeliveredFile(name, kind, bytes.Length, FileHash.Sha256(staged.PathOf(name)));
    }

    private DeliveryManifest Manifest(ProvedPrints prints, IReadOnlyList<DeliveredFile> files, Revision? revision)
    {
        var (changes, trouble) = revision?.Changes(prints.Ticket, prints.Folder) ?? ([], null);
        var onlyLength = revision?.OnlyLength(files, _chain.Song.RateHz);
        return new DeliveryManifest
        {
            Engine = EngineVersion.Text,
            Title = _chain.Song.Title,
            Code = _chain.Song.Code,
            Version = _chain.Song.Version,
            RateHz = _chain.Song.RateHz,
            Frames = prints.Ticket.Frames,
            Encoding = prints.Ticket.Encoding,
            ChainSha256 = prints.Ticket.ChainSha256,
            SinceVersion = revision?.Earlier.Version,
            SinceSha256 = revision?.ManifestSha256,
            Files = revision is null ? files : [.. files.Select(f => f with { State = revision.StateOf(f) })],
            Withdrawn = revision?.Withdrawn(files) ?? [],
            Changes = [.. changes.Select(WishAnswers.Words), .. new[] { trouble, onlyLength }.OfType<string>()],
            Wishes = WishAnswers.Of(_chain.Song, _chain.Delivery.Wishes, revision?.Earlier.Version, changes),
        };
    }
}
