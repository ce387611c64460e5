using DrumPrint.Audio;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Planning;
using DrumPrint.Rendering;
using DrumPrint.Session;
using DrumPrint.Store;

namespace DrumPrint.Printing.Runs;

/// <summary>One try at a run's prints, at one trim and one reach of tails.</summary>
/// <param name="setup">The run.</param>
/// <param name="trimDb">Common trim of all prints.</param>
/// <param name="toCap">Whether tails are rendered to the cap.</param>
/// <param name="progress">Told how far it is.</param>
/// <param name="cancel">Stops it.</param>
internal sealed class PrintAttempt(RunSetup setup, double trimDb, bool toCap, IProgress<PrintProgress>? progress, CancellationToken cancel) : IDisposable
{
    private readonly Dictionary<int, PrintFigures> _figures = [];
    private readonly Dictionary<int, WaveWriter> _writers = [];
    private readonly List<RenderPlan> _plans = [];

    /// <summary>What is known of each print, by number.</summary>
    public IReadOnlyDictionary<int, PrintFigures> Figures => _figures;

    public IReadOnlyList<RenderPlan> Plans => _plans;

    public double TrimDb => trimDb;

    public bool ToCap => toCap;

    /// <summary>The proof that prints add up to the rough, when all of them were rendered together.</summary>
    public NullNode? Null => _plans.Select(p => p.Null).FirstOrDefault(n => n is not null);

    /// <summary>Takes what is known of a print from an earlier run.</summary>
    public void Take(PrintTarget target, PrintMemo memo) => _figures[target.Number] = PrintFigures.Of(target, memo);

    /// <summary>Renders prints; those that were chosen go to files of their own, which are not yet published.</summary>
    public void Render(IReadOnlyList<PrintTarget> targets, string activity)
    {
        if (targets.Count == 0)
        {
            return;
        }

        while (!TryRender(targets, activity))
        {
        }
    }

    public void Dispose()
    {
        foreach (var writer in _writers.Values)
        {
            writer.Dispose();
        }

        foreach (var plan in _plans)
        {
            plan.Dispose();
        }
    }

    // False when a kept signal turned out to be damaged; it is then left aside.
    private bool TryRender(IReadOnlyList<PrintTarget> targets, string activity)
    {
        var known = _figures.Values.Where(f => !targets.Contains(f.Target)).Select(f => f.TailTo).DefaultIfEmpty().Max();
        var plan = setup.Planner.Build(new PlanRequest(targets, trimDb, toCap, known, setup.Hashes), setup.Store?.Shelf, Open);
        try
        {
            Run(plan, activity);
        }
        catch (DamagedSignalException e)
        {
            plan.Dispose();
            foreach (var target in targets)
            {
                if (_writers.Remove(target.Number, out var writer))
                {
                    writer.Dispose();
                }
            }

            setup.Store!.Leave(plan, e);
            return false;
        }
        catch
        {
            plan.Dispose();
            throw;
        }

        _plans.Add(plan);
        setup.Store?.Check(plan, setup.Run);
        setup.Store?.Shelf.Commit(plan.Keeping);
        var floor = Decibels.ToGain(PrintFigures.TailFloorDb);
        var byNumber = targets.ToDictionary(t => t.Number);
        foreach (var print in plan.Prints)
        {
            _figures[print.Number] = PrintFigures.Of(byNumber[print.Number], print, plan, _writers.GetValueOrDefault(print.Number), floor);
        }

        return true;
    }

    private void Run(RenderPlan plan, string activity)
    {
        var blockFrames = plan.Late?.BlockFrames ?? setup.Options.BlockFrames;
        foreach (var node in plan.Nodes)
        {
            node.Prepare(blockFrames);
            if (node.FirstBlock > 0)
            {
                node.StartAt(node.FirstBlock);
            }
        }

        var blocks = (plan.Frames + blockFrames - 1) / blockFrames;
        BlockScheduler.Run(plan.Nodes, blocks, setup.Threads, part => progress?.Report(new PrintProgress(activity, part)), cancel);
    }

    private WaveWriter? Open(PrintTarget target, int channels, WrittenStretch written)
    {
        if (!setup.Selection.Chosen.Contains(target))
        {
            return null;
        }

        if (_writers.Count == 0)
        {
            CreateFolder();
            setup.Lock.Take(setup.Folder);
        }

        var path = setup.PathOf(target);
        if (!EarlierPrint.MayReplace(path))
        {
            throw new UsageException($"{path} was not made by DrumPrint; a print may not replace it. Move it away, or print to another folder with --out. Nothing was written.");
        }

        var format = setup.Format(channels);
        var broadcast = PrintBroadcast.Of(setup, target, format, null, null);
        var writer = setup.Steps.Do($"create {Path.GetFileName(path)}", () => WaveWriter.Create(setup.Steps, path, format, setup.Encoding, broadcast, written.To - written.From, [setup.Record.Blank(target)], Math.Max(0, written.SureTo - written.From)));
        _writers.Add(target.Number, writer);
        return writer;
    }

    private void CreateFolder()
    {
        try
        {
            setup.Steps.MakeFolder(setup.Folder);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            throw new AudioFileException(setup.Folder, $"this folder cannot be made: {FileReason.Of(e)}.", e);
        }
    }
}
