using DrumPrint.Chains;
using DrumPrint.Dsp.Processors;
using DrumPrint.Files;
using DrumPrint.Session;

namespace DrumPrint.Measuring;

/// <summary>Runs the layers of a chain, and nothing after them, and takes down under which hits they play.</summary>
public static class LayerLedger
{
    /// <summary>The layers of every bus, in the order of the chain.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="reading">Which files it may name.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancel">Stops between blocks.</param>
    /// <exception cref="InputException">Files are missing or do not fit.</exception>
    /// <exception cref="ChainException">Settings do not go together.</exception>
    public static IReadOnlyList<LayerRecord> Of(Chain chain, ReadPolicy reading, Action<string, double> progress, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(chain);
        ArgumentNullException.ThrowIfNull(progress);
        var buses = chain.Buses.Select(b => (Bus: b, Last: b.Stages.ToList().FindLastIndex(IsLayer))).Where(b => b.Last >= 0).ToList();
        if (buses.Count == 0)
        {
            return [];
        }

        using var run = new CutRun(chain, reading, buses.Select(b => (b.Bus, b.Last + 1)));
        foreach (var (bus, last) in buses)
        {
            run.Hear(CutRun.NameOf(bus, last + 1), static (_, _) => { });
        }

        run.Run(progress, cancel);
        return [.. buses.SelectMany(b => run.Graph.Layers.Where(l => l.Bus == CutRun.NameOf(b.Bus, b.Last + 1)).Select(l => Record(chain, b.Bus.Name, l.Stage, l.Layer, l.Latency, run.Frames)))];
    }

    private static bool IsLayer(Stage stage) => stage.Definition == Layer.Definition;

    private static LayerRecord Record(Chain chain, string bus, Stage stage, Layer layer, long latency, long frames)
    {
        var hits = new List<LayeredHit>();
        foreach (var hit in layer.Hits)
        {
            // What sounds from the start may fit best a little before it.
            var seconds = Math.Max(0, (hit.Frame - latency) / chain.Song.RateHz);
            if (hit.Frame - latency < frames)
            {
                hits.Add(new LayeredHit(seconds, chain.Song.PlaceOf(seconds), hit.LevelDb, hit.GainDb, hit.IsInverted, 100 * hit.Likeness));
            }
        }

        return new LayerRecord(bus, stage.Settings[Layer.Sound], stage.Line, hits);
    }
}
