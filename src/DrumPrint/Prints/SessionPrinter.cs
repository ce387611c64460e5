using System.Diagnostics;
using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Planning;
using DrumPrint.Prints.Ticketing;
using DrumPrint.Rendering;

namespace DrumPrint.Prints;

/// <summary>Prints a session: reads the raw tracks, renders every bus, writes the files.</summary>
public sealed class SessionPrinter
{
    private const double TailFloorDb = -90;
    private const double SilentDb = -80;
    private const int LowerTries = 5;

    private readonly Chain _chain;
    private readonly PrintOptions _options;
    private readonly SessionInputs _inputs;
    private readonly PrintSelection _selection;
    private readonly SampleEncoding _encoding;
    private readonly PlanBuilder _planner;
    private readonly SongStretch _stretch;
    private readonly string _folder;
    private readonly RunRecord? _record;

    private SessionPrinter(Chain chain, PrintOptions options)
    {
        _chain = chain;
        _options = options;
        _selection = PrintSelection.Of(chain, options.Only);
        _inputs = SessionInputs.Open(chain, options.Settled?.Places);
        _encoding = options.Encoding ?? chain.Output.Encoding;
        _stretch = Stretch(chain, options);
        _planner = new PlanBuilder(chain, _inputs, _selection, _stretch, _encoding);
        _folder = options.OutFolder ?? Path.Combine(chain.Folder, IsExcerpt ? "excerpt" : "prints");
        _record = IsExcerpt ? null : new RunRecord(chain, _inputs, _encoding);
        if (_stretch.From > 0 && _stretch.From >= _planner.RawEnd)
        {
            throw new UsageException(string.Create(CultureInfo.InvariantCulture, $"--from: the session ends at {(double)_planner.RawEnd / chain.Song.RateHz:0.###} s."));
        }

        if (!_stretch.IsWhole && _stretch.To > _planner.Cap)
        {
            throw new UsageException(string.Create(CultureInfo.InvariantCulture, $"--to: the session with its longest tail ends at {(double)_planner.Cap / chain.Song.RateHz:0.###} s."));
        }
    }

    private bool IsExcerpt => !_stretch.IsWhole && (_stretch.From > 0 || _stretch.To is not null);

    private int Threads => Math.Max(1, _options.Threads ?? Environment.ProcessorCount);

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
        return new SessionPrinter(chain, options).Print(progress, cancel);
    }

    private PrintReport Print(IProgress<PrintProgress>? progress, CancellationToken cancel)
    {
        var trimDb = _options.Settled?.TrimDb ?? 0;
        var toCap = false;
        for (var attempt = 0; ; attempt++)
        {
            var writers = new Dictionary<int, WaveWriter>();
            try
            {
                using var plan = _planner.Build(trimDb, toCap, (target, channels, written) => Open(writers, target, channels, written));
                Run(plan, toCap ? "Printing again, with longer tails" : attempt == 0 ? "Printing" : "Printing again, lowered", progress, cancel);
                if (!toCap && IsTailCut(plan))
                {
                    toCap = true;
                    attempt--;
                    continue;
                }

                var over = plan.Prints.Max(p => Decibels.FromGain(p.Writer.Peak));
                if (over <= 1e-9 || _stretch.IsWhole)
                {
                    cancel.ThrowIfCancellationRequested();
                    return Finish(plan, writers, trimDb);
                }

                if (!_chain.Output.LowerTogether || attempt == LowerTries)
                {
                    throw Overload(plan, trimDb);
                }

                trimDb = Fitting(trimDb - over);
            }
            finally
            {
                foreach (var writer in writers.Values)
                {
                    writer.Dispose();
                }
            }
        }
    }

    // A compressor may bring up a tail that its bus counts as over; then the plan ends too early.
    private bool IsTailCut(RenderPlan plan)
    {
        var end = plan.EndFrame;
        var floor = Decibels.ToGain(TailFloorDb);
        return _planner.MeasuresTails && end < _planner.Cap && plan.Prints.Any(p => p.Writer.QuietFrom(floor) >= end && end > _planner.RawEnd);
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

    private WaveWriter Open(Dictionary<int, WaveWriter> writers, PrintTarget target, int channels, WrittenStretch written)
    {
        if (writers.Count == 0)
        {
            CreateFolder();
        }

        var path = Path.Combine(_folder, PrintFileName.Of(target.Number, target.Name, _chain.Song));
        if (IsInput(path))
        {
            throw new UsageException($"{path} is a file that this chain reads; a print may not replace it. Print to another folder with --out. Nothing was written.");
        }

        var format = new AudioFormat(_chain.Song.RateHz, channels);
        var writer = WaveWriter.Create(path, format, _encoding, PrintBroadcast.Of(_chain.Song, target, format, _encoding, _stretch.From, null), written.To - written.From, _record is null ? [] : [_record.Blank(target)], Math.Max(0, written.TailFrom - written.From));
        writers.Add(target.Number, writer);
        return writer;
    }

    private bool IsInput(string path)
    {
        var full = Path.GetFullPath(path);
        return _chain.Tracks.Select(t => t.File).Concat(_chain.Impulses.Select(i => i.File))
            .Any(file => string.Equals(Path.GetFullPath(Path.Combine(_chain.Folder, file)), full, StringComparison.OrdinalIgnoreCase));
    }

    private void CreateFolder()
    {
        try
        {
            Directory.CreateDirectory(_folder);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw new AudioFileException(_folder, $"this folder cannot be made: {e.Message}", e);
        }
    }

    private void Run(RenderPlan plan, string activity, IProgress<PrintProgress>? progress, CancellationToken cancel)
    {
        foreach (var node in plan.Nodes)
        {
            node.Prepare(_options.BlockFrames);
        }

        var blocks = (plan.Frames + _options.BlockFrames - 1) / _options.BlockFrames;
        BlockScheduler.Run(plan.Nodes, blocks, Threads, part => progress?.Report(new PrintProgress(activity, part)), cancel);
    }

    private PrintReport Finish(RenderPlan plan, Dictionary<int, WaveWriter> writers, double trimDb)
    {
        var floor = Decibels.ToGain(TailFloorDb);
        var end = _planner.MeasuresTails
            ? plan.Prints.Max(p => p.Writer.QuietFrom(floor))
            : _stretch.To ?? (_planner.RawEnd + (long)Math.Round(_chain.Output.TailS!.Value * _chain.Song.RateHz));
        var frames = end - _stretch.From;
        var targets = _selection.All.ToDictionary(t => t.Number);
        ManyFiles.Do(plan.Prints, Threads, print =>
        {
            print.Writer.Loudness.Keep(frames);
            if (writers.TryGetValue(print.Number, out var writer))
            {
                var target = targets[print.Number];
                var format = new AudioFormat(_chain.Song.RateHz, print.Writer.Channels);
                writer.Finish(
                    frames,
                    PrintBroadcast.Of(_chain.Song, target, format, _encoding, _stretch.From, print.Writer.Loudness),
                    _record is null ? [] : [_record.Chunk(target, frames, trimDb, plan)]);
                _ = writer.FileSha256;
            }
        });

        var report = new PrintReport(
            _chain,
            _folder,
            _encoding,
            _stretch.From,
            frames,
            trimDb,
            [.. plan.Prints.Where(p => writers.ContainsKey(p.Number)).Select(p => Result(plan, p, writers[p.Number], floor))],
            _selection.IsWhole && plan.Null is { } proof ? Decibels.FromGain(proof.Peak) : null,
            Notes(trimDb),
            [],
            [.. plan.Nodes.Select(n => new NodeTime(n.Name, (double)n.BusyTicks / Stopwatch.Frequency)).OrderByDescending(n => n.Seconds)]);
        report = report with { Findings = Findings(report, plan) };
        var ticketPath = Path.Combine(_folder, Ticket.FileName(_chain.Song));
        var ticket = _selection.IsWhole && _options.Settled is null ? _record?.Ticket(report, plan, Threads).ToText() : null;
        if (_record is not null && _options.Settled is null)
        {
            // Until the new set is whole, nothing vouches for it.
            File.Delete(ticketPath);
        }

        foreach (var writer in writers.Values)
        {
            writer.Publish();
        }

        if (ticket is not null)
        {
            TicketWriter.Write(ticketPath, ticket);
        }

        return report;
    }

    private PrintedFile Result(RenderPlan plan, PlannedPrint print, WaveWriter writer, double floor)
    {
        var bus = print.Print is null ? null : _chain.Buses.First(b => b.Name == print.Print.Bus);
        var stages = print.Kind == PrintKind.RoughWithBus ? "" : bus?.Name;
        return new PrintedFile(
            print.Kind,
            print.Number,
            print.Name,
            PrintFileName.Of(print.Number, print.Name, _chain.Song),
            print.Writer.Channels,
            bus?.Feeds ?? [],
            Decibels.FromGain(print.Writer.Peak),
            print.Writer.Loudness.IntegratedLufs,
            stages is null ? [] : [.. plan.Stages[stages].Select(s => GainReductions.Of(s, plan.Frames)).OfType<GainReduction>()],
            (double)Math.Max(0, print.Writer.QuietFrom(floor) - _planner.RawEnd) / _chain.Song.RateHz,
            print.Latency,
            writer.AudioSha256,
            writer.FileSha256)
        {
            RangeLu = print.Writer.Loudness.RangeLu,
            MaxMomentaryLufs = print.Writer.Loudness.MomentaryMaxLufs,
            MaxShortTermLufs = print.Writer.Loudness.ShortTermMaxLufs,
        };
    }

    private List<string> Notes(double trimDb)
    {
        var notes = new List<string>();
        foreach (var input in _inputs.Tracks.Values.Where(t => t.IsConverted))
        {
            notes.Add($"Track '{input.Track.Name}' was resampled from {input.Info.SampleRate} to {_chain.Song.RateHz} Hz.");
        }

        foreach (var input in _inputs.ImpulseFiles.Where(i => i.Info.SampleRate != _chain.Song.RateHz))
        {
            notes.Add($"Impulse '{input.File.Name}' was resampled from {input.Info.SampleRate} to {_chain.Song.RateHz} Hz.");
        }

        if (trimDb < 0)
        {
            notes.Add(string.Create(CultureInfo.InvariantCulture, $"All prints were lowered together by {-trimDb:0.0} dB so that none goes above 0 dBFS; their balance is unchanged."));
        }

        if (IsExcerpt && _chain.Output.LowerTogether)
        {
            notes.Add("How far this excerpt had to be lowered was worked out from the excerpt alone; the whole session may be lowered further.");
        }

        return notes;
    }

    private List<string> Findings(PrintReport report, RenderPlan plan)
    {
        var findings = new List<string>();
        foreach (var print in report.Prints.Where(p => p.PeakDbfs < SilentDb))
        {
            findings.Add($"{print.FileName} is silent (peak below {SilentDb.ToString(CultureInfo.InvariantCulture).Replace('-', '−')} dBFS). Check its feeds.");
        }

        var bound = NullBoundDb(plan.Prints.Count(p => p.Kind == PrintKind.Playing) + 1);
        if (report.NullPeakDbfs > bound)
        {
            findings.Add(string.Create(CultureInfo.InvariantCulture, $"The prints do not add up to the rough: the largest difference is {report.NullPeakDbfs:0.0} dBFS, at most {bound:0.0} is expected at this word length."));
        }

        if (_planner.MeasuresTails && plan.Prints.Any(p => p.Writer.QuietFrom(Decibels.ToGain(TailFloorDb)) >= _planner.Cap))
        {
            findings.Add(string.Create(CultureInfo.InvariantCulture, $"Tails are cut at tail_cap_s, {_chain.Output.TailCapS:0.###} s after the raw tracks end, before they fall 90 dB below their peak. Raise output.tail_cap_s to keep more."));
        }

        return findings;
    }

    // Each file is off by half a step, or by one and a half with dither; half a step more where a peak meets full scale.
    private double NullBoundDb(int files)
    {
        var step = _encoding switch
        {
            SampleEncoding.Pcm16 => 1.0 / (1 << 15),
            SampleEncoding.Pcm24 => 1.0 / (1 << 23),
            _ => 1.0 / (1 << 24),
        };
        var isDithered = _encoding != SampleEncoding.Float32 && (_chain.Output.Dither ?? _encoding == SampleEncoding.Pcm16);
        return Decibels.FromGain(files * step * (isDithered ? 2 : 1));
    }

    // The next lower tenth of a decibel; a hair above a tenth counts as that tenth.
    private static double Fitting(double db) => Math.Round(Math.Floor((db * 10) + 1e-6) / 10, 1);

    private OverloadException Overload(RenderPlan plan, double trimDb)
    {
        var over = plan.Prints.Where(p => p.Writer.Peak > 1).Select(p => Overload(p, trimDb, Decibels.FromGain(p.Writer.Peak)));
        var advice = _chain.Output.LowerTogether
            ? "Lowering all prints together did not bring it below 0 dBFS. Nothing was written."
            : "Nothing was written. Lower those levels, or say \"over\": \"lower_together\" under output: then all prints are lowered by the same amount.";
        return new OverloadException(string.Join(Environment.NewLine, [.. over, advice]));
    }

    private string Overload(PlannedPrint planned, double trimDb, double db)
    {
        var file = PrintFileName.Of(planned.Number, planned.Name, _chain.Song);
        var peaks = string.Create(CultureInfo.InvariantCulture, $"{file} peaks {db:0.00} dB above 0 dBFS;");
        return planned switch
        {
            { Print: { } print } => string.Create(CultureInfo.InvariantCulture, $"{_chain.Path}:{print.Line}: {peaks} level_db {Fitting(print.LevelDb + trimDb - db):0.0} would fit."),
            { Kind: PrintKind.RoughWithBus } => string.Create(CultureInfo.InvariantCulture, $"{_chain.Path}: {peaks} output.rough_with_bus.level_db {Fitting(_chain.Output.RoughWithBus!.LevelDb - db):0.0} would fit."),
            _ => string.Create(CultureInfo.InvariantCulture, $"{_chain.Path}: {peaks} lowering every print by {-Fitting(trimDb - db):0.0} dB would fit."),
        };
    }
}
