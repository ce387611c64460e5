using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Planning;
using DrumPrint.Printing.Folder;
using DrumPrint.Printing.Reports;
using DrumPrint.Printing.Runs;
using DrumPrint.Rendering;
using DrumPrint.Session;
using DrumPrint.Store;
using DrumPrint.Tickets;

namespace DrumPrint.Printing;

/// <summary>Prints a session: reads the raw tracks, renders every bus, writes the files.</summary>
public sealed class SessionPrinter
{
    private const int LowerTries = 5;

    private readonly Chain _chain;
    private readonly RunSetup _setup;
    private readonly IProgress<PrintProgress>? _progress;
    private readonly CancellationToken _cancel;
    private readonly string? _storeProblem;

    private SessionPrinter(Chain chain, PrintOptions options, IProgress<PrintProgress>? progress, CancellationToken cancel)
    {
        _chain = chain;
        _progress = progress;
        _cancel = cancel;
        var selection = PrintSelection.Of(chain, options.Only);
        var inputs = SessionInputs.Open(chain, options.Settled?.Places);
        var encoding = options.Encoding ?? chain.Output.Encoding;
        var stretch = Stretch(chain, options);
        var isExcerpt = !stretch.IsWhole && (stretch.From > 0 || stretch.To is not null);
        var planner = new PlanBuilder(chain, inputs, selection, stretch, encoding);
        var folder = options.OutFolder ?? Path.Combine(chain.Folder, isExcerpt ? "excerpt" : PrintFileName.Folder);
        InputGuard.Check(folder, options.OutFolder is not null, inputs);
        _setup = new RunSetup(chain, options, inputs, selection, encoding, stretch, planner, folder, isExcerpt ? null : new RunRecord(chain, inputs, encoding));
        if (stretch.From > 0 && stretch.From >= planner.RawEnd)
        {
            throw new UsageException(string.Create(CultureInfo.InvariantCulture, $"--from: the session ends at {(double)planner.RawEnd / chain.Song.RateHz:0.###} s."));
        }

        if (!stretch.IsWhole && stretch.To > planner.Cap)
        {
            throw new UsageException(string.Create(CultureInfo.InvariantCulture, $"--to: the session with its longest tail ends at {(double)planner.Cap / chain.Song.RateHz:0.###} s."));
        }

        if (options.Store is { } store && options.Settled is null)
        {
            progress?.Report(new PrintProgress("Looking at what is there", 0));
            (var opened, _storeProblem) = RunStore.Open(store, _setup, cancel);
            _setup = _setup with { Store = opened };
        }
    }

    /// <summary>Prints a session.</summary>
    /// <param name="chain">A checked chain.</param>
    /// <param name="options">What differs from the chain.</param>
    /// <param name="progress">Told how far it is, from any thread.</param>
    /// <param name="cancel">Stops the run; nothing is left half-written.</param>
    /// <exception cref="ChainException">Settings that are each in range do not go together.</exception>
    /// <exception cref="InputException">Raw tracks or impulses are missing or do not fit.</exception>
    /// <exception cref="AudioFileException">A file cannot be written, or a raw track is damaged.</exception>
    /// <exception cref="OverloadException">A print would go above 0 dBFS and the chain does not say what to do then.</exception>
    /// <exception cref="UsageException">The options do not fit the chain.</exception>
    /// <exception cref="OperationCanceledException">The run was stopped.</exception>
    public static PrintReport Print(Chain chain, PrintOptions options, IProgress<PrintProgress>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(chain);
        ArgumentNullException.ThrowIfNull(options);
        return new SessionPrinter(chain, options, progress, cancel).Print();
    }

    private PrintReport Print()
    {
        using var held = _setup.Lock;
        while (true)
        {
            if (TryPrint() is { } report)
            {
                return report;
            }
        }
    }

    // Null when figures that were remembered turned out to be wrong: they are forgotten then, and the run begins anew.
    private PrintReport? TryPrint()
    {
        var trimDb = _setup.Options.Settled?.TrimDb ?? 0;
        var toCap = false;
        for (var tries = 0; ; tries++)
        {
            using var attempt = new PrintAttempt(_setup, trimDb, toCap, _progress, _cancel);
            Measure(attempt, toCap ? "Printing again, with longer tails" : tries == 0 ? "Printing" : "Printing again, lowered");
            if (!toCap && IsTailCut(attempt))
            {
                SaveMeasures(attempt);
                toCap = true;
                tries--;
                continue;
            }

            var over = attempt.Figures.Values.Max(f => Decibels.FromGain(f.Peak));
            if (over <= 1e-9 || _setup.Stretch.IsWhole)
            {
                return Finish(attempt);
            }

            SaveMeasures(attempt);
            if (!_chain.Output.LowerTogether || tries == LowerTries)
            {
                throw Overloads.Refusal(_setup, attempt);
            }

            trimDb = Overloads.Fitting(trimDb - over);
        }
    }

    // Learns the peak and the tail of every print: from the store where it knows them, else by rendering.
    private void Measure(PrintAttempt attempt, string activity)
    {
        var unknown = new List<PrintTarget>();
        foreach (var target in _setup.Needed)
        {
            if (_setup.Store?.Find(target, attempt.TrimDb, attempt.ToCap) is { } memo)
            {
                attempt.Take(target, memo);
            }
            else
            {
                unknown.Add(target);
            }
        }

        attempt.Render(unknown, activity);
    }

    // A compressor may bring up a tail that its bus counts as over; then the plan ends too early.
    private bool IsTailCut(PrintAttempt attempt) =>
        _setup.Planner.MeasuresTails && attempt.Figures.Values.Any(f => f.TailTo > _setup.Planner.RawEnd && f.TailTo < _setup.Planner.Cap && f.QuietFrom >= f.TailTo);

    private void SaveMeasures(PrintAttempt attempt)
    {
        foreach (var figures in attempt.Figures.Values.Where(f => f.Memo is null))
        {
            _setup.Store?.Save(figures, attempt.TrimDb, attempt.ToCap, null);
        }
    }

    private static SongStretch Stretch(Chain chain, PrintOptions options)
    {
        if (options.Settled is { } settled)
        {
            return new SongStretch(0, settled.Frames, IsWhole: true);
        }

        var from = (long)Math.Round((options.FromS ?? 0) * chain.Song.RateHz);
        var to = options.ToS is { } seconds ? (long?)Math.Round(seconds * chain.Song.RateHz) : null;
        return to <= from
            ? throw new UsageException("--to lies before --from; nothing would be written.")
            : new SongStretch(from, to);
    }

    private PrintReport? Finish(PrintAttempt attempt)
    {
        var end = _setup.Planner.End(attempt.Figures.Values.Where(f => f.Target.Kind != PrintKind.Click).Select(f => f.QuietFrom).DefaultIfEmpty().Max());
        var frames = end - _setup.Stretch.From;
        if (!RenderRest(attempt, frames))
        {
            return null;
        }

        _cancel.ThrowIfCancellationRequested();

        var hashes = _setup.Store?.TrackHashes ?? (_setup.Record is null ? null : Hashes(attempt));

        // Meanwhile the prints are brought to the disk.
        var fileHashes = _setup.IsTicketed ? Task.Run(() => _setup.Record!.FileHashes(hashes!, FileHashes(attempt), _setup.Threads), CancellationToken.None) : null;
        ManyFiles.Do([.. attempt.Figures.Values.Where(f => f.Planned is not null)], _setup.Threads, figures =>
        {
            figures.Planned!.Writer.Loudness.Keep(frames);
            if (figures.Writer is { } writer)
            {
                writer.Finish(
                    frames,
                    PrintBroadcast.Of(_chain.Song, figures.Target, _setup.Format(figures.Channels), _setup.Encoding, _setup.Stretch.From, figures.Planned.Writer),
                    _setup.Record is null ? [] : [_setup.Record.Part(figures.Target, frames, attempt.TrimDb, hashes).ToChunk()]);
                _ = writer.FileSha256;
            }
        });

        var chosen = attempt.Figures.Values.Where(f => _setup.Selection.Chosen.Contains(f.Target)).OrderBy(f => f.Target.Number).ToList();
        var results = chosen.Select(f => Result(f, end)).ToList();
        var nullPeak = NullPeak(attempt, chosen, end);
        var report = new PrintReport(
            _chain,
            _setup.Folder,
            _setup.Encoding,
            _setup.Stretch.From,
            frames,
            attempt.TrimDb,
            results,
            nullPeak is { } peak ? Decibels.FromGain(peak) : null,
            RunFindings.Notes(_setup, attempt, frames, results),
            [])
        {
            Profile = _setup.Options.Profiles ? RunProfile.Of([.. attempt.Plans.SelectMany(p => p.Nodes)]) : null,
            LookedForChanges = _setup.Store is not null && _setup.Record is not null,
        };
        report = report with { Findings = RunFindings.Of(_setup, report, attempt) };
        var length = new OnlyLength(_setup);
        if (report.LookedForChanges)
        {
            report = report with { Prints = [.. report.Prints.Select(p => p.IsUnchanged ? p : p with { Because = StaleReasons.Of(_setup, attempt, frames, p.Number, length) })] };
        }

        var mayReplaceTicket = _setup.Record is not null && _setup.Options.Settled is null;
        var tickets = new EarlierTickets(_setup.Folder, _chain.Song);
        if (mayReplaceTicket)
        {
            report = report with { Prints = EarlierSounds.Beside(tickets, report) };
        }

        var ticket = fileHashes is null ? null : _setup.Record!.Ticket(report, hashes!, fileHashes.GetAwaiter().GetResult()).ToText();

        // Then whatever is there still vouches for it.
        var isNothingNew = chosen.All(f => f.Writer is null) && (ticket is null || TicketWriter.IsThere(TicketPath, ticket));
        PrintPart NewPart(PrintFigures figures) => _setup.Record!.Part(figures.Target, frames, attempt.TrimDb, hashes);
        var changed = _setup.Record is null ? null : ChangedPrints.Find(_setup, chosen, tickets.Current, ReturnToVersion.Warning(_chain, _setup.Options) is not null, NewPart, _cancel);
        if (mayReplaceTicket)
        {
            var notes = FolderNotes.Of(_setup, tickets, chosen, isNothingNew, frames, length, changed!, NewPart);
            report = report with
            {
                FolderNotes = notes.All,
                Losses = notes.Losses,
                FindingsStand = isNothingNew && report.Findings.Count > 0 && tickets.Current?.Findings.SequenceEqual(report.Findings) == true,
            };
        }
        else if (changed is not null)
        {
            report = report with { FolderNotes = changed.Notes, Losses = changed.Notes };
        }

        if (!isNothingNew)
        {
            Publish(chosen, changed, mayReplaceTicket, ticket);
        }

        Remember(attempt, report, nullPeak);
        return report with { StoreNotes = [.. _storeProblem is { } problem ? [problem] : (IEnumerable<string>)(_setup.Store?.Notes ?? [])] };
    }

    // Files that are not there as they should be, although all is known of them. False when the render contradicts that.
    private bool RenderRest(PrintAttempt attempt, long frames)
    {
        var known = attempt.Figures.Values.Where(f => f.Memo is not null && _setup.Selection.Chosen.Contains(f.Target)).ToList();
        _setup.Store?.HashAhead(known.Where(f => f.Memo!.Written?.Frames == frames).Select(f => _setup.PathOf(f.Target)), _setup.Threads, _cancel);
        var missing = known
            .Where(f => f.Memo!.Written is not { } written || written.Frames != frames || !_setup.Store!.IsWhole(_setup.PathOf(f.Target), written))
            .ToList();
        attempt.Render([.. missing.Select(f => f.Target)], "Printing");
        var contradicted = missing.Where(f => !_setup.Store!.Confirms(attempt.Figures[f.Target.Number], f.Memo!, attempt.TrimDb, attempt.ToCap)).ToList();
        return contradicted.Count == 0;
    }

    private static Dictionary<string, string> Hashes(PrintAttempt attempt) =>
        attempt.Plans.SelectMany(p => p.Sources).DistinctBy(s => s.Key).ToDictionary(s => s.Key, s => s.Value.AudioSha256, StringComparer.Ordinal);

    // Of the raw files that were hashed while they were read, by track.
    private IReadOnlyDictionary<string, string> FileHashes(PrintAttempt attempt) =>
        _setup.Store?.TrackFileHashes ?? attempt.Plans.SelectMany(p => p.Sources).Where(s => s.Value.FileSha256 is not null).DistinctBy(s => s.Key).ToDictionary(s => s.Key, s => s.Value.FileSha256!, StringComparer.Ordinal);

    private double? NullPeak(PrintAttempt attempt, List<PrintFigures> chosen, long end)
    {
        if (!_setup.Selection.IsWhole)
        {
            return null;
        }

        if (attempt.Null is { } proof)
        {
            return proof.PeakBefore(end);
        }

        var rough = chosen.FirstOrDefault(f => f.Target.Kind == PrintKind.Rough);
        if (rough is null || _setup.Store is null)
        {
            return null;
        }

        // The rough's memo stands for all playing prints too: its key holds everything they are made of.
        return rough is { Planned: null, Memo.Written.NullPeak: { } known }
            ? known
            : FileProof.Peak(
                [.. chosen.Where(f => f.Target.Kind == PrintKind.Playing).Select(Current)],
                Current(rough),
                _chain.Song.PanLawDb,
                _setup.Options.BlockFrames,
                _setup.Threads,
                _cancel);
    }

    // Where a finished print is before the new ones take their names.
    private string Current(PrintFigures figures) => figures.Writer?.PartialPath ?? _setup.PathOf(figures.Target);

    private PrintedFile Result(PrintFigures figures, long end)
    {
        var target = figures.Target;
        var bus = target.Print is null ? null : _chain.Buses.First(b => b.Name == target.Print.Bus);
        var result = new PrintedFile(
            target.Kind,
            target.Number,
            target.Name,
            _setup.NameOf(target),
            figures.Channels,
            bus?.Feeds ?? [],
            Decibels.FromGain(figures.Peak),
            0,
            [],
            (double)_setup.Planner.Tail(figures.QuietFrom) / _chain.Song.RateHz,
            figures.LatencyFrames,
            "",
            "");
        if (figures is { Planned: { } planned, Writer: { } writer })
        {
            return result with
            {
                IntegratedLufs = planned.Writer.Loudness.IntegratedLufs,
                CrestDb = planned.Writer.CrestDb(end - _setup.Stretch.From),
                RangeLu = planned.Writer.Loudness.RangeLu,
                MaxMomentaryLufs = planned.Writer.Loudness.MomentaryMaxLufs,
                MaxShortTermLufs = planned.Writer.Loudness.ShortTermMaxLufs,
                GainReductions = ReductionSummary.Of(_chain, target, figures.Plan!.Traces, end),
                AudioSha256 = writer.AudioSha256,
                FileSha256 = writer.FileSha256,
            };
        }

        var written = figures.Memo!.Written!;
        return result with
        {
            IntegratedLufs = written.IntegratedLufs,
            CrestDb = written.CrestDb,
            RangeLu = written.RangeLu,
            MaxMomentaryLufs = written.MaxMomentaryLufs,
            MaxShortTermLufs = written.MaxShortTermLufs,
            GainReductions = written.GainReductions,
            AudioSha256 = written.AudioSha256,
            FileSha256 = written.FileSha256,
            IsUnchanged = true,
        };
    }

    private string TicketPath => Path.Combine(_setup.Folder, Ticket.FileName(_chain.Song));

    private void Publish(List<PrintFigures> chosen, ChangedPrints? changed, bool isTicketed, string? ticket)
    {
        _setup.Lock.Take(_setup.Folder, _chain.Song.Code);
        if (isTicketed)
        {
            // Until the new set is whole, nothing vouches for it.
            RemoveTicket();
        }

        foreach (var figures in chosen.Where(f => f.Writer is not null))
        {
            changed?.SetAside(figures);
            figures.Writer!.Publish();
        }

        if (ticket is not null)
        {
            TicketWriter.Write(TicketPath, ticket);
        }
    }

    private void RemoveTicket()
    {
        try
        {
            File.Delete(TicketPath);
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Writing(TicketPath, e);
        }
    }

    private void Remember(PrintAttempt attempt, PrintReport report, double? nullPeak)
    {
        if (_setup.Store is not { } store)
        {
            return;
        }

        foreach (var figures in attempt.Figures.Values)
        {
            var print = report.Prints.FirstOrDefault(p => p.Number == figures.Target.Number);
            if (print is null && _setup.Options.Store!.Anew)
            {
                continue; // what is known of its file from before still holds
            }

            if (figures.Planned is not null || (figures.Target.Kind == PrintKind.Rough && nullPeak != figures.Memo?.Written?.NullPeak))
            {
                store.Save(figures, attempt.TrimDb, attempt.ToCap, print is null ? null : Written(print, report.Frames, figures.Target.Kind == PrintKind.Rough ? nullPeak : null));
            }
        }

        store.Evict();
    }

    private static WrittenMemo Written(PrintedFile print, long frames, double? nullPeak) => new(
        frames, print.AudioSha256, print.FileSha256, print.IntegratedLufs, print.CrestDb, print.RangeLu, print.MaxMomentaryLufs, print.MaxShortTermLufs, print.GainReductions, nullPeak);
}
