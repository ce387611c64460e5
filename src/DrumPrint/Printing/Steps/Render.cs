using DrumPrint.Audio;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Printing.Folder;
using DrumPrint.Printing.Reports;
using DrumPrint.Printing.Runs;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Printing.Steps;

/// <summary>Third step: renders what is not there as it should be, and finishes every new file and the ticket.</summary>
/// <param name="setup">The run.</param>
/// <param name="attempt">What was measured.</param>
/// <param name="length">Where the files end.</param>
/// <param name="cancel">Stops it.</param>
internal sealed class Render(RunSetup setup, PrintAttempt attempt, Settle length, CancellationToken cancel)
{
    /// <summary>Does it.</summary>
    /// <returns>Null when a render contradicts what is remembered of its print: that is forgotten then, and the run begins anew.</returns>
    public RenderedSet? Run()
    {
        if (!Rest())
        {
            return null;
        }

        cancel.ThrowIfCancellationRequested();
        var tracks = setup.Store?.TrackHashes ?? (setup.Run.IsOfWholeSong ? Hashes() : null);

        // Meanwhile the prints are brought to the disk.
        var files = setup.Run.WritesTicket ? Task.Run(() => setup.Record.FileHashes(tracks!, FileHashes(), setup.Threads, cancel), CancellationToken.None) : null;
        Finish(tracks);

        var chosen = attempt.Figures.Values.Where(f => setup.Selection.Chosen.Contains(f.Target)).OrderBy(f => f.Target.Number).ToList();
        var account = Account(chosen);
        return new RenderedSet(
            chosen,
            setup.Run.IsOfWholeSong ? chosen.Where(f => f.Writer is not null).ToDictionary(f => f.Target.Number, f => Part(f, f.Writer!.AudioSha256, tracks)) : new Dictionary<int, PrintPart>(),
            account,
            files is null ? null : setup.Record.Ticket(account, tracks!, files.GetAwaiter().GetResult()));
    }

    // Files that are not there as they should be, although all is known of them. False when the render contradicts that.
    private bool Rest()
    {
        var known = attempt.Figures.Values.Where(f => f.Memo is not null && setup.Selection.Chosen.Contains(f.Target)).ToList();
        setup.Store?.HashAhead(known.Where(f => f.Memo!.Written?.Frames == length.Frames).Select(f => setup.PathOf(f.Target)), setup.Threads, cancel);
        var missing = known
            .Where(f => f.Memo!.Written is not { } written || written.Frames != length.Frames || !setup.Store!.IsWhole(setup.PathOf(f.Target), written))
            .ToList();
        attempt.Render([.. missing.Select(f => f.Target)], "Printing");

        // Each is asked, for each that is contradicted is forgotten.
        var contradicted = missing.Where(f => !setup.Store!.Confirms(attempt.Figures[f.Target.Number], f.Memo!, attempt.TrimDb, attempt.ToCap)).ToList();
        return contradicted.Count == 0;
    }

    private void Finish(IReadOnlyDictionary<string, string>? tracks) =>
        ManyFiles.Do([.. attempt.Figures.Values.Where(f => f.Planned is not null)], setup.Threads, figures =>
        {
            figures.Planned!.Writer.Loudness.Keep(length.Frames);
            if (figures.Writer is { } writer)
            {
                setup.Steps.Do($"finish {Path.GetFileName(writer.Path)}", () => writer.FinishWith(length.Frames, audio =>
                (
                    PrintBroadcast.Of(setup, figures.Target, setup.Format(figures.Channels), figures.Planned.Writer, audio),
                    [setup.Run.IsOfWholeSong ? Part(figures, audio, tracks).ToChunk() : ExcerptSeal.ToChunk(audio)])));
                _ = writer.FileSha256;
            }
        });

    private PrintPart Part(PrintFigures figures, string audioSha256, IReadOnlyDictionary<string, string>? tracks) =>
        setup.Record.Part(figures.Target, length.Frames, attempt.TrimDb, tracks, audioSha256);

    private RunAccount Account(List<PrintFigures> chosen)
    {
        var prints = chosen.Select(f => PrintResult.Of(setup, f, length.End)).ToList();
        var nullPeak = NullPeak(chosen);
        return new RunAccount(
            length.Frames,
            attempt.TrimDb,
            prints,
            nullPeak,
            RunFindings.Notes(setup, attempt, length.Frames, prints),
            RunFindings.Of(setup, attempt, length.Frames, prints, nullPeak is { } peak ? Decibels.FromGain(peak) : null));
    }

    // A length that was taken down may be shorter than a raw file is now; what is left of it counts for its hash.
    private Dictionary<string, string> Hashes()
    {
        var sources = attempt.Plans.SelectMany(p => p.Sources).DistinctBy(s => s.Key).ToDictionary(StringComparer.Ordinal);
        foreach (var source in sources.Values)
        {
            source.SkipToEnd();
        }

        return sources.ToDictionary(s => s.Key, s => s.Value.AudioSha256, StringComparer.Ordinal);
    }

    // Of the raw files that were hashed while they were read, by track.
    private IReadOnlyDictionary<string, string> FileHashes() =>
        setup.Store?.TrackFileHashes ?? attempt.Plans.SelectMany(p => p.Sources).Where(s => s.Value.FileSha256 is not null).DistinctBy(s => s.Key).ToDictionary(s => s.Key, s => s.Value.FileSha256!, StringComparer.Ordinal);

    private double? NullPeak(List<PrintFigures> chosen)
    {
        if (!setup.Selection.IsWhole)
        {
            return null;
        }

        if (attempt.Null is { } proof)
        {
            return proof.PeakBefore(length.End);
        }

        var rough = chosen.FirstOrDefault(f => f.Target.Kind == PrintKind.Rough);
        if (rough is null || setup.Store is null)
        {
            return null;
        }

        // The rough's memo stands for all playing prints too: its key holds everything they are made of.
        return rough is { Planned: null, Memo.Written.NullPeak: { } known }
            ? known
            : FileProof.Peak(
                [.. chosen.Where(f => f.Target.Kind == PrintKind.Playing).Select(Current)],
                Current(rough),
                setup.Chain.Song.PanLawDb,
                setup.Options.BlockFrames,
                setup.Threads,
                cancel);
    }

    // Where a finished print is before the new ones take their names.
    private string Current(PrintFigures figures) => figures.Writer?.PartialPath ?? setup.PathOf(figures.Target);
}
