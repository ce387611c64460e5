using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Diff;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Language;
using DrumPrint.Session;
using DrumPrint.Store;

namespace DrumPrint.Seeking;

/// <summary>Finds the numbers of a chain that are set by a goal, each on the very signal that the processor gets.</summary>
/// <remarks>What feeds a processor is settled before it. Nothing depends on threads, and a number is one of a fixed grid: 0.1 dB.</remarks>
/// <param name="inputs">The chain's files.</param>
/// <param name="memory">Numbers that earlier runs found; null without any.</param>
/// <param name="threads">Threads to render with.</param>
/// <param name="progress">Told the part done of each rendering.</param>
/// <param name="cancel">Stops it.</param>
internal sealed class Seeker(SessionInputs inputs, SeekMemory? memory, int threads, Action<double> progress, CancellationToken cancel)
{
    private const string BeforeMark = "·before";

    private readonly List<string> _notes = [];
    private readonly HashSet<string> _settled = new(StringComparer.Ordinal);
    private Chain _chain = null!;

    /// <summary>Whether any number is still to be found that a print depends on.</summary>
    public static bool IsNeeded(Chain chain) => chain.Buses.Any(b => b.Stages.Any(IsOpen)) || chain.DrumBus.Any(IsOpen);

    /// <summary>The chain with every number in its place, as far as prints depend on it.</summary>
    /// <param name="chain">The chain.</param>
    /// <returns>It, and a sentence for each number.</returns>
    /// <exception cref="ChainException">A goal cannot be met.</exception>
    public (Chain Chain, IReadOnlyList<string> Notes) Run(Chain chain)
    {
        _chain = chain;
        foreach (var print in chain.Prints)
        {
            Settle(print.Bus);
        }

        if (chain.DrumBus.Any(IsOpen) && chain.Output.RoughWithBus is not null && chain.Prints.Any(p => !p.IsOptional))
        {
            foreach (var key in chain.DrumBus.Select(s => s.Key).OfType<string>())
            {
                Settle(key);
            }

            var rough = new Bus("", [.. chain.Prints.Where(p => !p.IsOptional).Select(p => new Feed(p.Bus, p.LevelDb, null, false, PathDelay.None, [], 0))], chain.DrumBus, 2, 0);
            _chain = _chain with { DrumBus = Settled(rough, "drum_bus", "the drum bus") };
        }

        return (_chain, _notes);
    }

    private static bool IsOpen(Stage stage) => stage.Settings.Wanted.Any(w => w.Value.Found is null);

    // What feeds it and what its detectors listen to, then itself.
    private void Settle(string name)
    {
        if (!_settled.Add(name) || _chain.Buses.FirstOrDefault(b => b.Name == name) is not { } bus)
        {
            return;
        }

        foreach (var source in bus.Feeds.Select(f => f.Source).Concat(bus.Stages.Select(s => s.Key).OfType<string>()))
        {
            Settle(source);
        }

        if (bus.Stages.Any(IsOpen))
        {
            var stages = Settled(bus, $"buses.{name}", $"'{Show.Name(name)}'");
            _chain = _chain with { Buses = [.. _chain.Buses.Select(b => b.Name == name ? b with { Stages = stages } : b)] };
        }
    }

    private List<Stage> Settled(Bus bus, string place, string of)
    {
        var stages = bus.Stages.ToList();
        for (var i = 0; i < stages.Count; i++)
        {
            foreach (var (parameter, sought) in stages[i].Settings.Wanted.Where(w => w.Value.Found is null).ToList())
            {
                cancel.ThrowIfCancellationRequested();
                var upTo = bus with { Stages = [.. stages.Take(i + 1)] };
                if (memory?.Find(_chain, upTo, parameter) is not { } found)
                {
                    found = Find(bus, stages, i, place, parameter, sought);
                    memory?.Save(_chain, upTo, parameter, found);
                }

                stages[i] = stages[i] with { Settings = stages[i].Settings.With(parameter, sought with { Found = found.Number }) };
                var number = found.Number.ToString("0.0", CultureInfo.InvariantCulture).Replace('-', '−');
                _notes.Add($"Found: {ChangeWords.Label(parameter.Key, parameter.Unit)} {number} {parameter.Unit.Symbol()} of the {ChangeWords.Processor(stages[i].Definition.Key)} of {of}, which {found.Words}.");
            }
        }

        return stages;
    }

    private FoundNumber Find(Bus bus, List<Stage> stages, int index, string place, NumberParameter parameter, Sought sought)
    {
        var stage = stages[index];
        var before = bus with { Name = bus.Name + BeforeMark, Stages = [.. stages.Take(index)], OffFeeds = [], OffStages = [] };
        var graph = new SeekGraph(_chain, inputs, before, stage, $"{place}.through[{index.ToString(CultureInfo.InvariantCulture)}].{stage.Definition.Key}.{parameter.Key}", threads, progress, cancel);
        return sought.Goal == Compress.ForReduction ? ReductionSearch.Find(graph, parameter, sought)
            : sought.Goal == Compress.SameLoudness ? LoudnessSearch.Find(graph, parameter)
            : sought.Goal == Gate.KeepHits ? LevelSearch.Gate(graph, parameter, sought)
            : sought.Goal == Duck.ForHits ? LevelSearch.Duck(graph, parameter, sought)
            : throw graph.Refusal($"'{sought.Goal.Key}' cannot be looked for here. Write a number.");
    }
}
