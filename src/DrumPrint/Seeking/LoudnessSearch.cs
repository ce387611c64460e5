using System.Globalization;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Planning;
using DrumPrint.Rendering;
using DrumPrint.Store;

namespace DrumPrint.Seeking;

/// <summary>Finds the make-up with which a processor gives its sound on as loud as it came in, by the gated loudness of the whole song.</summary>
/// <remarks>Source: ITU-R BS.1770-5, by <see cref="LoudnessMeter"/>.</remarks>
internal static class LoudnessSearch
{
    private const double StepDb = 0.1;
    private const double NearLu = 0.005;

    /// <summary>Finds it.</summary>
    /// <param name="graph">Renders the signal.</param>
    /// <param name="parameter">The make-up.</param>
    public static FoundNumber Find(SeekGraph graph, NumberParameter parameter)
    {
        var search = new GridSearch((int)Math.Round(parameter.Minimum / StepDb), (int)Math.Round(parameter.Maximum / StepDb), StepDb, NearLu);
        var loudness = 0.0;
        var outputs = new Dictionary<int, double>();
        for (IReadOnlyList<int> steps = [0]; steps.Count > 0; steps = search.Next())
        {
            var (before, after) = Loudness(graph, parameter, [.. steps.Select(s => s / 10.0)]);
            if (!double.IsFinite(before) || !after.TrueForAll(double.IsFinite))
            {
                throw graph.Refusal("what comes here or goes out is too soft for a loudness meter. Write a number for 'make_up_db'.");
            }

            loudness = before;
            foreach (var (step, lufs) in steps.Zip(after))
            {
                outputs[step] = lufs;
                search.Put(step, lufs - before);
            }
        }

        return search.IsFound
            ? new FoundNumber(search.Best / 10.0, string.Create(CultureInfo.InvariantCulture, $"takes in {loudness:0.0} LUFS and gives out {outputs[search.Best]:0.0}").Replace('-', '−'))
            : throw graph.Refusal(string.Create(CultureInfo.InvariantCulture, $"no make-up gives out {loudness:0.0} LUFS, as loud as it comes in; the nearest is {search.Best / 10.0:0.#} dB, with {outputs[search.Best]:0.0}. Write a number.").Replace(" -", " −", StringComparison.Ordinal));
    }

    private static (double Before, List<double> After) Loudness(SeekGraph graph, NumberParameter parameter, IReadOnlyList<double> makeUps)
    {
        (double Before, List<double> After) found = default;
        graph.Run(
            (g, input, _) => (
                Before: Meter(g, graph, input),
                After: makeUps.Select((m, i) => Meter(g, graph, g.Through($"{i}", graph.Place, input, [graph.Stage with { Settings = graph.Stage.Settings.With(parameter, m) }]))).ToList()),
            (_, meters) => found = (meters.Before.IntegratedLufs, [.. meters.After.Select(m => m.IntegratedLufs)]));
        return found;
    }

    private static LoudnessMeter Meter(GraphBuilder graph, SeekGraph seek, Node node)
    {
        var meter = new LoudnessMeter(new AudioFormat(seek.RateHz, node.Channels), seek.Frames);
        var toSkip = node.Latency;
        graph.Add(
            new TapNode(node, block =>
            {
                var skip = (int)Math.Min(toSkip, block.Frames);
                toSkip -= skip;
                meter.Add(block.Slice(skip, block.Frames - skip));
            })
            {
                Name = "loudness",
                Channels = 0,
            },
            0);
        return meter;
    }
}
