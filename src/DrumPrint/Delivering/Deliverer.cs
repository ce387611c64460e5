using System.Text;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Delivering.Sheet;
using DrumPrint.Files;
using DrumPrint.Language;
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
        var form = DeliveredForm.Of(prints.Ticket, _options);
        var delivery = new SoundDelivery(_chain, _options, form, staged, prints, _progress, _cancel);
        delivery.Run();
        var sounds = delivery.Files;
        var proof = Proof(staged, sounds);
        var manifest = Manifest(prints, form, [.. sounds, .. Sources(staged, prints), .. Others(staged, prints, form)], revision);
        var facts = new SheetFacts
        {
            Manifest = manifest,
            Ticket = prints.Ticket,
            Sounds = delivery.Readings,
            Outlines = delivery.Outlines,
            Proof = proof,
            Lowered = delivery.Lowered,
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

        foreach (var (number, down) in delivery.Lowered.OrderBy(l => l.Key))
        {
            _notes.Add(FormattableString.Invariant($"The dry twin of {number:00} was lowered by {down:0.0} dB, to stay below 0 dBFS. The sheet says so."));
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

    private IReadOnlyList<PanLawLine> Proof(StagedFolder staged, IReadOnlyList<DeliveredFile> sounds)
    {
        _progress?.Invoke("Proving that they add up", 0);
        var proof = sounds.Any(s => s.Kind == DeliveredKind.Rough)
            ? UnityProof.Measure(Of(DeliveredKind.Playing), Of(DeliveredKind.Rough), _chain.Song.PanLawDb, _cancel)
            : [];
        return proof.Count > 0 && proof.Min(l => l.LeftDbfs) > MostLeftDbfs
            ? throw new UsageException(FormattableString.Invariant($"{_chain.Path}: the prints do not add up to the rough; {proof.Min(l => l.LeftDbfs):0.0} dBFS is left at its peak. Somebody changed a print and its ticket. Print again: drumprint print {_chain.Path} --anew"))
            : proof;

        List<ProofFile> Of(DeliveredKind kind) => [.. sounds.Where(s => s.Kind == kind).Select(s => new ProofFile(staged.PathOf(s.Name), s.Side))];
    }

    private List<DeliveredFile> Sources(StagedFolder staged, ProvedPrints prints)
    {
        if (!_options.WithRaw && !_options.WithImpulses)
        {
            return [];
        }

        _progress?.Invoke("Copying what was asked for", 0);
        var sources = new SourceFiles(_chain, prints.Ticket, staged, _options.Reading, _cancel);
        var kept = _options.WithImpulses ? SourceFiles.Kept(_chain, prints.Ticket) : [];
        if (kept.Count > 0)
        {
            _notes.Add($"{Show.Some(kept)} {(kept.Count == 1 ? "was" : "were")} left out: the chain does not say that the licence of {(kept.Count == 1 ? "this impulse" : "these impulses")} permits it. If it does, add \"pass_on\": true to the impulse, and print.");
        }

        return [.. _options.WithRaw ? sources.Raw() : [], .. _options.WithImpulses ? sources.Impulses() : []];
    }

    private List<DeliveredFile> Others(StagedFolder staged, ProvedPrints prints, DeliveredForm form)
    {
        var song = form.At(_chain.Song);
        var files = new List<DeliveredFile>();
        if (song.Tempo is { IsMissing: false } whole)
        {
            var tempo = whole.UpTo((double)prints.Ticket.Frames / _chain.Song.RateHz);
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

    private string Named(string end) => FormattableString.Invariant($"{_chain.Song.Code}_v{_chain.Song.Version}_{end}");

    private static DeliveredFile Write(StagedFolder staged, string name, DeliveredKind kind, byte[] bytes)
    {
        staged.Write(name, bytes);
        return new DeliveredFile(name, kind, bytes.Length, FileHash.Sha256(staged.PathOf(name)));
    }

    private DeliveryManifest Manifest(ProvedPrints prints, DeliveredForm form, IReadOnlyList<DeliveredFile> files, Revision? revision)
    {
        var (changes, trouble) = revision?.Changes(prints.Ticket, prints.Folder) ?? ([], null);
        var onlyLength = revision?.OnlyLength(files, form.RateHz);
        return new DeliveryManifest
        {
            Engine = EngineVersion.Text,
            Title = _chain.Song.Title,
            Code = _chain.Song.Code,
            Version = _chain.Song.Version,
            RateHz = form.RateHz,
            Frames = form.Frames(prints.Ticket),
            Encoding = form.Encoding,
            ChainSha256 = prints.Ticket.ChainSha256,
            PrintedRateHz = form.RateHz == _chain.Song.RateHz ? null : _chain.Song.RateHz,
            PrintedBits = form.Encoding == prints.Ticket.Encoding ? null : EncodingKeys.Word(prints.Ticket.Encoding),
            SinceVersion = revision?.Earlier.Version,
            SinceSha256 = revision?.ManifestSha256,
            Files = revision is null ? files : [.. files.Select(f => f with { State = revision.StateOf(f) })],
            Withdrawn = revision?.Withdrawn(files) ?? [],
            Changes = [.. changes.Select(WishAnswers.Words), .. new[] { trouble, onlyLength }.OfType<string>()],
            Wishes = WishAnswers.Of(_chain.Song, _chain.Delivery.Wishes, revision?.Earlier.Version, changes),
        };
    }
}
