using System.Globalization;
using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Store;

namespace DrumPrint.Seeking;

/// <summary>Finds the threshold at which a compressor turns hits down by so much: half of them by more, half by less.</summary>
internal static class ReductionSearch
{
    private const double LoudDb = 6;
    private const double AllDb = 18;
    private const int Reference = 2; // the third loudest, so that one accident does not set it
    private const int AfterMs = 150;
    private const double StepDb = 0.1;
    private const double NearDb = 0.05;

    // A slow attack needs a lower threshold than the level of a hit says.
    private static readonly int[] FirstSteps = [0, 20, 50, 100];

    /// <summary>Finds it.</summary>
    /// <param name="graph">Renders the signal.</param>
    /// <param name="parameter">The threshold.</param>
    /// <param name="goal">What is wanted.</param>
    public static FoundNumber Find(SeekGraph graph, NumberParameter parameter, Sought goal)
    {
        var settings = graph.Stage.Settings;
        settings = settings.Raw(Compress.MakeUp) is Sought { Found: null } ? settings.With(Compress.MakeUp, 0.0) : settings;
        var wanted = goal.Settings[(NumberParameter)Compress.ForReduction.What];
        var isLoud = goal.Settings[Compress.Hits] == "loud_hits";
        var hits = Hits(graph, settings, isLoud ? LoudDb : AllDb);
        var words = $"{(isLoud ? "loud " : "")}{(hits.Count == 1 ? "hit" : "hits")}";
        var slope = 1 - (1 / settings[Compress.Ratio]);
        if (hits.Count == 0 || slope == 0)
        {
            throw graph.Refusal(hits.Count == 0
                ? "no hits are heard here, so no threshold turns them down. Write a number."
                : "a ratio of 1 turns nothing down. Raise it, or write a number for 'threshold_db'.");
        }

        // Steps count downward: a lower threshold turns down more.
        static double Threshold(int step) => -step / 10.0;
        var (lowest, highest) = ((int)Math.Round(-parameter.Maximum / StepDb), (int)Math.Round(-parameter.Minimum / StepDb));
        var search = new GridSearch(lowest, highest, slope * StepDb, NearDb);
        var first = (int)Math.Round(-(Middle([.. hits.Select(h => h.Db)]) - (wanted / slope)) / StepDb);
        IReadOnlyList<int> steps = [.. FirstSteps.Select(s => Math.Clamp(first + s, lowest, highest)).Distinct()];
        var reductions = new Dictionary<int, double[]>();
        while (steps.Count > 0)
        {
            foreach (var (step, found) in steps.Zip(Reductions(graph, settings, parameter, [.. steps.Select(Threshold)], hits)))
            {
                reductions[step] = found;
                search.Put(step, Middle(found) - wanted);
            }

            steps = search.Next();
        }

        var best = reductions[search.Best];
        return search.IsFound
            ? new FoundNumber(Threshold(search.Best), string.Create(CultureInfo.InvariantCulture, $"turns {hits.Count} {words} down by {Middle(best):0.0} dB in the middle, by {best.Min():0.0} to {best.Max():0.0}"))
            : throw graph.Refusal(string.Create(CultureInfo.InvariantCulture, $"{hits.Count} {words} cannot be turned down by {wanted:0.##} dB in the middle: a threshold of {Threshold(search.Best):0.#} dB comes nearest, with {Middle(best):0.0} dB. Change the ratio or the times, or write a number.").Replace(" -", " −", StringComparison.Ordinal));
    }

    private static List<HeardHit> Hits(SeekGraph graph, Settings settings, double withinDb)
    {
        IReadOnlyList<HeardHit> hits = [];
        graph.Run(
            (g, input, key) =>
            {
                var heard = key ?? input;
                var listener = new HeardHits(graph.RateHz, heard.Channels, heard.Latency, graph.Frames);
                g.Add(new Rendering.TapNode(heard, listener.Add) { Name = "hits", Channels = 0 }, 0);
                return (Listener: listener, Levels: graph.Listen(g, "levels", input, key, (c, late) => new DetectorLevels(c, settings.Find(Compress.KeyHighPass), null, late)));
            },
            (_, heard) => hits = heard.Listener.Of(heard.Levels.Levels));
        List<HeardHit> audible = [.. hits.Where(h => double.IsFinite(h.Db))];
        var loud = audible.Count == 0 ? 0 : audible.OrderByDescending(h => h.Db).ElementAt(Math.Min(Reference, audible.Count - 1)).Db;
        return [.. audible.Where(h => h.Db >= loud - withinDb)];
    }

    // Of each threshold, how far every hit is turned down.
    private static List<double[]> Reductions(SeekGraph graph, Settings settings, NumberParameter parameter, IReadOnlyList<double> thresholds, List<HeardHit> hits)
    {
        var found = new List<double[]>();
        graph.Run(
            (g, input, key) =>
            {
                var names = thresholds.Select((t, i) => $"{i}").ToList();
                for (var i = 0; i < names.Count; i++)
                {
                    g.Through(names[i], graph.Place, input, [graph.Stage with { Settings = settings.With(parameter, thresholds[i]) }]);
                }

                return (Names: names, Late: Math.Max(input.Latency, key?.Latency ?? 0));
            },
            (g, tried) => found.AddRange(tried.Names.Select(n => hits.Select(h => Reduction(g.Traces[n][0], h, graph.RateHz, tried.Late)).ToArray())));
        return found;
    }

    private static double Reduction(GainTrace trace, HeardHit hit, int rateHz, long late)
    {
        var gains = trace.LowestGain;
        var windows = gains.Length;
        int Window(int ms) => (int)Math.Clamp((((long)ms * rateHz / 1000) + late) / trace.WindowFrames, 0, windows);
        var lowest = 1f;
        foreach (var gain in gains[Window(hit.Ms)..Math.Max(Window(hit.Ms), Window(Math.Min(hit.EndMs, hit.Ms + AfterMs)))])
        {
            lowest = Math.Min(lowest, gain);
        }

        return -Decibels.FromGain(lowest);
    }

    private static double Middle(double[] values)
    {
        var sorted = values.Order().ToArray();
        return (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
    }
}
