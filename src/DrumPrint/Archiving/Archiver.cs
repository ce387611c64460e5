using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Delivering;
using DrumPrint.Files;
using DrumPrint.Language;
using DrumPrint.Tickets;

namespace DrumPrint.Archiving;

/// <summary>Puts away all that a song's prints are made of, in open formats: raw files, impulses, chain, prints, ticket, and how to make them again.</summary>
/// <remarks>Every file is copied as it is and proved by the ticket. The archive is made under a temporary name and takes its own in one step. It is
/// used as it stands: its <c>session</c> folder prints and reprints.</remarks>
public sealed class Archiver
{
    private readonly Chain _chain;
    private readonly ArchiveOptions _options;
    private readonly Action<string, double>? _progress;
    private readonly CancellationToken _cancel;

    private Archiver(Chain chain, ArchiveOptions options, Action<string, double>? progress, CancellationToken cancel)
    {
        _chain = chain;
        _options = options;
        _progress = progress;
        _cancel = cancel;
    }

    private string Name => FormattableString.Invariant($"{_chain.Song.Code}_v{_chain.Song.Version}_archive");

    /// <summary>Archives a chain that was printed.</summary>
    /// <param name="chain">A checked chain, printed as it is.</param>
    /// <param name="options">What it is made of, and where it goes.</param>
    /// <param name="progress">Told what is done and how far it is.</param>
    /// <param name="cancel">Stops it; nothing is left half-written.</param>
    /// <exception cref="UsageException">The prints are not those of the chain, a file lies outside the session, or something else is there; the message says what to do.</exception>
    /// <exception cref="DrumPrintException">A file cannot be read or used.</exception>
    /// <exception cref="IOException">A file cannot be written.</exception>
    public static ArchiveReport Archive(Chain chain, ArchiveOptions options, Action<string, double>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(chain);
        ArgumentNullException.ThrowIfNull(options);
        return new Archiver(chain, options, progress, cancel).Run();
    }

    private ArchiveReport Run()
    {
        var prints = ProvedPrints.Find(_chain, _options.PrintsFolder);
        var files = SessionFiles.Of(_chain, prints);
        return HeldPlace.With(_options.To, "archive", "archive", _options.Steps, () => Make(prints, files));
    }

    private ArchiveReport Make(ProvedPrints prints, SessionFiles files)
    {
        using var staged = new StagedFolder(_options.To, _options.Steps);
        Copy(staged, files);
        Prove(staged, prints, files);
        staged.Write("READ-ME-FIRST.txt", ReadFirst.Text(prints.Ticket, files.PlaceOf(_chain, Path.GetFileName(_chain.Path)), _options.Build));
        staged.Write("MAKE-AGAIN.txt", new Recipe(prints.Ticket, files).Text(_chain));
        staged.Write("conformance.md", Formulas.Text("conformance.md"));
        List<string> names = [.. files.Places.Values.Distinct(StringComparer.Ordinal), "READ-ME-FIRST.txt", "MAKE-AGAIN.txt", "conformance.md"];
        var sums = SumsFile.Text(names.Select(n => (n, FileHash.Sha256(staged.PathOf(n), _cancel))));
        staged.Write(SumsFile.Name, sums);
        foreach (var folder in Directory.GetDirectories(staged.Folder, "*", SearchOption.AllDirectories))
        {
            _options.Steps.FlushFolder(folder);
        }

        var target = Path.Combine(_options.To, Name);
        var isNew = !Path.Exists(target);
        if (isNew)
        {
            staged.Publish(Name);
        }
        else
        {
            RequireSame(target, sums, names);
        }

        return new ArchiveReport(
            target,
            isNew,
            names.Count + 1,
            names.Append(SumsFile.Name).Sum(n => new FileInfo(Path.Combine(target, n)).Length),
            _chain.Tracks.SelectMany(t => t.Files).Select(f => files.PlaceOf(_chain, f)).Distinct(StringComparer.Ordinal).Count(),
            _chain.Impulses.Count,
            prints.Ticket.Prints.Count);
    }

    private void Copy(StagedFolder staged, SessionFiles files)
    {
        var all = files.Places.OrderBy(p => p.Value, StringComparer.Ordinal).ToList();
        for (var i = 0; i < all.Count; i++)
        {
            _progress?.Invoke("Copying", (double)i / all.Count);
            var (path, place) = all[i];
            if (!File.Exists(path))
            {
                throw new UsageException($"{path}: this belongs to the session, and it is not there.");
            }

            _options.Steps.MakeFolder(Path.GetDirectoryName(staged.PathOf(place))!);
            staged.Copy(path, place, _cancel);
        }
    }

    // Told of the copies: an archive holds what the prints were made of, and nothing else.
    private void Prove(StagedFolder staged, ProvedPrints prints, SessionFiles files)
    {
        var ticket = prints.Ticket;
        var folder = Path.GetFullPath(prints.Folder);
        var inputs = ticket.Tracks.Concat(ticket.Impulses).DistinctBy(i => i.File).ToList();
        for (var i = 0; i < inputs.Count; i++)
        {
            _progress?.Invoke("Proving", (double)i / (inputs.Count + ticket.Prints.Count));
            var place = files.PlaceOf(_chain, inputs[i].File);
            if (FileHash.AudioSha256(staged.PathOf(place), _cancel) != inputs[i].AudioSha256)
            {
                throw new UsageException($"{Show.Name(inputs[i].File)} is not what these prints were made of; it was changed since. Print again: drumprint print {_chain.Path}");
            }
        }

        for (var i = 0; i < ticket.Prints.Count; i++)
        {
            _progress?.Invoke("Proving", (double)(inputs.Count + i) / (inputs.Count + ticket.Prints.Count));
            var print = ticket.Prints[i];
            if (FileHash.Sha256(staged.PathOf(files.Places[Path.Combine(folder, print.FileName)]), _cancel) != print.FileSha256)
            {
                throw prints.NotProved(print, _chain);
            }
        }

        if (!File.ReadAllBytes(staged.PathOf(files.Places[Path.Combine(folder, Ticket.FileName(_chain.Song))])).AsSpan().SequenceEqual(prints.TicketText))
        {
            throw new UsageException($"The ticket in {prints.Folder} was changed while it was copied. Archive again.");
        }
    }

    private static void RequireSame(string target, string sums, IReadOnlyList<string> names)
    {
        var isSame = File.Exists(Path.Combine(target, SumsFile.Name))
            && File.ReadAllText(Path.Combine(target, SumsFile.Name)) == sums
            && names.All(n => File.Exists(Path.Combine(target, n)))
            && SumsFile.Text(names.Select(n => (n, FileHash.Sha256(Path.Combine(target, n))))) == sums;
        if (!isSame)
        {
            throw new UsageException($"{target} is there already, and holds something else. An archive is never overwritten: move it away, or archive to another folder with --to.");
        }
    }
}
