using System.Globalization;
using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;
using DrumPrint.Store;

namespace DrumPrint.Seeking;

/// <summary>Finds the highest level at which a gate or a ducker heeds every hit from some level on.</summary>
/// <remarks>It lies 1 dB under what the detector hears of the softest of them, so that it acts before the hit is at its highest. Common practice,
/// no source.</remarks>
internal static class LevelSearch
{
    private const double UnderDb = 1;

    /// <summary>Finds it for a gate: its hits are those of the sound that it lets through.</summary>
    public static FoundNumber Gate(SeekGraph graph, NumberParameter parameter, Sought goal) =>
        Find(graph, parameter, goal, (Dsp.Processors.Gate.KeyHighPass, Dsp.Processors.Gate.KeyLowPass), ofKey: false, "lets {0} through, and {1} below");

    /// <summary>Finds it for a ducker: its hits are those of the key.</summary>
    public static FoundNumber Duck(SeekGraph graph, NumberParameter parameter, Sought goal) =>
        Find(graph, parameter, goal, (Dsp.Processors.Duck.KeyHighPass, Dsp.Processors.Duck.KeyLowPass), ofKey: true, "gives way to {0}, and to {1} below");

    private static FoundNumber Find(SeekGraph graph, NumberParameter parameter, Sought goal, (NumberParameter High, NumberParameter Low) filters, bool ofKey, string words)
    {
        var settings = graph.Stage.Settings;
        var wanted = goal.Settings[(NumberParameter)goal.Goal.What];
        IReadOnlyList<HeardHit> hits = [];
        var levels = Array.Empty<float>();
        graph.Run(
            (g, input, key) =>
            {
                var heard = ofKey ? key ?? input : input;
                var listener = new HeardHits(graph.RateHz, heard.Channels, heard.Latency, graph.Frames);
                g.Add(new Rendering.TapNode(heard, listener.Add) { Name = "hits", Channels = 0 }, 0);
                return (
                    Listener: listener,
                    Plain: graph.Listen(g, "levels", heard, null, (c, late) => new DetectorLevels(c, null, null, late)),
                    Detector: graph.Listen(g, "detector", input, key, (c, late) => new DetectorLevels(c, settings.Find(filters.High), settings.Find(filters.Low), late)));
            },
            (_, heard) => (hits, levels) = (heard.Listener.Of(heard.Plain.Levels), heard.Detector.Levels.ToArray()));

        double Detected(HeardHit hit) => HeardHits.Highest(levels, hit.Ms, hit.EndMs);
        List<HeardHit> kept = [.. hits.Where(h => h.Db >= wanted)];
        if (kept.Count == 0)
        {
            var loudest = hits.Count == 0 ? "no hits are heard here" : string.Create(CultureInfo.InvariantCulture, $"no hit peaks at {wanted:0.##} dB or more; the loudest is at {hits.Max(h => h.Db):0.0} dB");
            throw graph.Refusal(Minus($"{loudest}. Ask for a lower level, or write a number."));
        }

        var softest = kept.Min(Detected);
        var number = Math.Clamp(Math.Floor((softest - UnderDb) * 10) / 10, parameter.Minimum, parameter.Maximum);
        if (softest < number)
        {
            throw graph.Refusal(Minus(string.Create(CultureInfo.InvariantCulture, $"the detector does not hear every hit of {wanted:0.##} dB and more. Change its key or the key's filters, or write a number.")));
        }

        var others = hits.Count(h => h.Db < wanted && Detected(h) >= number);
        var those = string.Create(CultureInfo.InvariantCulture, $"{(kept.Count == 1 ? "the one hit" : $"all {kept.Count} hits")} of {wanted:0.##} dB and more");
        return new FoundNumber(number, Minus(string.Format(CultureInfo.InvariantCulture, words, those, others == 0 ? "none" : $"{others} of {hits.Count - kept.Count}")));
    }

    private static string Minus(string text) => text.Replace(" -", " −", StringComparison.Ordinal);
}
