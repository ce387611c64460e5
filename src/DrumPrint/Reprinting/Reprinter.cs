using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Printing;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Reprinting;

/// <summary>Makes prints again from what they say of themselves, and compares.</summary>
public sealed class Reprinter
{
    private readonly ReprintTarget _target;
    private readonly ReprintOptions _options;
    private readonly IProgress<PrintProgress>? _progress;
    private readonly CancellationToken _cancel;
    private readonly List<string> _folderNotes = [];

    private Reprinter(ReprintTarget target, ReprintOptions options, IProgress<PrintProgress>? progress, CancellationToken cancel)
    {
        _target = target;
        _options = options;
        _progress = progress;
        _cancel = cancel;
    }

    /// <summary>Makes prints again.</summary>
    /// <param name="target">A ticket, a print, or a folder of prints.</param>
    /// <param name="options">Where to look and where to write.</param>
    /// <param name="progress">Told how far it is, from any thread.</param>
    /// <param name="cancel">Stops the run.</param>
    /// <exception cref="InputException">Raw files are nowhere to be found; all of them are named.</exception>
    /// <exception cref="TicketException">The target is a ticket or print that this version cannot read.</exception>
    /// <exception cref="UsageException">The target holds nothing to make again, or the options do not fit it.</exception>
    /// <exception cref="AudioFileException">A file cannot be read or written.</exception>
    public static ReprintReport Reprint(string target, ReprintOptions options, IProgress<PrintProgress>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(options);
        var read = ReprintTarget.Read(target);
        if (options.OutFolder is { } folder && Path.GetFullPath(folder).TrimEnd(Path.DirectorySeparatorChar) == read.Folder.TrimEnd(Path.DirectorySeparatorChar))
        {
            throw new UsageException("--out is the folder of the prints themselves; they would be written over before they are compared. Name another.");
        }

        return new Reprinter(read, options, progress, cancel).Reprint();
    }

    private ReprintReport Reprint()
    {
        var search = new InputSearch(_target.Folder, _options, _cancel);
        _progress?.Report(new PrintProgress("Looking for the raw files", 0));
        var inputs = _target.Jobs.SelectMany(j => j.Tracks.Concat(j.Impulses)).DistinctBy(i => (i.File, i.AudioSha256)).ToList();
        var found = search.Find(inputs).ToDictionary(f => (f.Input.File, f.Input.AudioSha256));
        var impulses = _target.Jobs.SelectMany(j => j.Impulses).Select(i => (i.File, i.AudioSha256)).ToHashSet();
        var notes = new InputNotes([.. found.Where(f => !impulses.Contains(f.Key)).Select(f => f.Value)], [.. found.Where(f => impulses.Contains(f.Key)).Select(f => f.Value)]);

        var prints = new List<Reprinted>(_target.Hopeless);
        foreach (var job in _target.Jobs)
        {
            prints.AddRange(Reprint(job, found));
        }

        return new ReprintReport([.. prints.OrderBy(p => p.FileName, StringComparer.Ordinal)], [.. notes.Sentences(), .. _folderNotes]);
    }

    private List<Reprinted> Reprint(ReprintJob job, Dictionary<(string File, string AudioSha256), FoundInput> found)
    {
        var temporary = _options.OutFolder is null ? _options.Steps.Do("make a temporary folder", () => Directory.CreateTempSubdirectory("drumprint-").FullName) : null;
        try
        {
            var places = job.Tracks.Concat(job.Impulses).DistinctBy(i => i.File).ToDictionary(i => i.File, i => found[(i.File, i.AudioSha256)].Path, StringComparer.Ordinal);
            var chain = Printed(job);
            var starts = job.Tracks.Where(i => i.StartFrame is not null).DistinctBy(i => (i.Name, i.File)).ToDictionary(i => (i.Name, i.File), i => i.StartFrame!.Value);
            if (LengthBound.Trouble(job, chain, places, starts, _options.Reading) is { } trouble)
            {
                return [.. job.Prints.Select(p => new Reprinted(p.FileName, ReprintOutcome.Differs) { Cause = trouble })];
            }

            var before = job.Prints.ToDictionary(p => p.Number, Fingerprint);
            var report = SessionPrinter.Print(
                chain,
                new PrintOptions
                {
                    OutFolder = temporary ?? _options.OutFolder,
                    Only = [.. job.Prints.Select(p => FormattableString.Invariant($"{p.Number}"))],
                    Encoding = job.Encoding,
                    Threads = _options.Threads,
                    Steps = _options.Steps,
                    Settled = new SettledRun(job.Frames, job.TrimDb, places)
                    {
                        Starts = starts,
                        Carried = job.Prints.ToDictionary(p => p.Number, p => new CarriedRecord(p.Form, p.Engine, before[p.Number].AudioSha256)),
                    },
                },
                _progress,
                _cancel);
            _folderNotes.AddRange(report.FolderNotes);
            var causes = new ReprintCauses(job, found);
            return [.. job.Prints.Select(old => Compare(old, before[old.Number], job, report, causes))];
        }
        finally
        {
            if (temporary is not null)
            {
                _options.Steps.TryDeleteFolder(temporary);
            }
        }
    }

    // A raw track that no print holds, because what it feeds is off or it feeds nothing, was not taken down: its file need not be there.
    private static Chain Printed(ReprintJob job)
    {
        var heard = PrintSelection.Of(job.Chain, []).All.SelectMany(t => ChainPart.Of(job.Chain, t).Tracks).Concat(job.Chain.Tracks.Where(t => job.Tracks.Any(r => r.Name == t.Name)))
            .Select(t => t.Name)
            .ToHashSet(StringComparer.Ordinal);
        return job.Chain with { Tracks = [.. job.Chain.Tracks.Where(t => heard.Contains(t.Name))] };
    }

    private static FileFingerprint Fingerprint(OldPrint old) => old.Path is { } path
        ? FileHash.Of(path, AudioHashes.Samples | AudioHashes.File)
        : new FileFingerprint(old.Recorded!.AudioSha256, old.Recorded.FileSha256, null);

    private static Reprinted Compare(OldPrint old, FileFingerprint before, ReprintJob job, PrintReport report, ReprintCauses causes)
    {
        var print = report.Prints.First(p => p.Number == old.Number);
        if (before.FileSha256 == print.FileSha256)
        {
            return new Reprinted(old.FileName, ReprintOutcome.Identical);
        }

        if (before.AudioSha256 == print.AudioSha256)
        {
            return new Reprinted(old.FileName, ReprintOutcome.SameAudio) { Cause = causes.OfOtherMetadata(old) };
        }

        var (first, residual) = old.Path is null ? (null, null) : PrintComparison.Compare(old.Path, Path.Combine(report.OutFolder, print.FileName));
        var seconds = first is { } frame ? (double)frame / job.Chain.Song.RateHz : (double?)null;
        return new Reprinted(old.FileName, ReprintOutcome.Differs)
        {
            FirstDifference = first,
            FirstDifferenceS = seconds,
            FirstDifferenceBar = seconds is { } time && job.Chain.Song.Tempo is { } tempo ? tempo.BarAtSeconds(time) : null,
            ResidualDbfs = residual,
            Cause = causes.OfOtherAudio(old, print.AudioSha256),
        };
    }
}
