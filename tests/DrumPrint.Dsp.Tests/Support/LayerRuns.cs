using DrumPrint.Dsp.Layering;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Processors;

namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Plays sounds under hits whose places are known, and judges what came of it.</summary>
internal static class LayerRuns
{
    /// <summary>A hit counts as heard when it stands so far above the 32 ms before it.</summary>
    public const double HeardDb = 8;

    private const int Near = 200;

    /// <summary>Drums by name: what is played and what is laid under it.</summary>
    public static IReadOnlyDictionary<string, double[]> Drums { get; } = new Dictionary<string, double[]>
    {
        ["snare"] = PlayedHits.Drum(190, 45, 0.5, 60, 3),
        ["kick"] = PlayedHits.Drum(55, 90, 0.1, 5, 4),
        ["tom"] = PlayedHits.Drum(110, 120, 0.05, 10, 5, 14400),
        ["noise burst"] = PlayedHits.Drum(190, 45, 1.5, 30, 6),
        ["bright click"] = PlayedHits.Click(3000, 2),
        ["low click"] = PlayedHits.Click(300, 10),
    };

    /// <summary>A track with one sound under it.</summary>
    public static (double[] Output, LayerHit[] Hits) Through(double[] track, double[] sound, params (Parameter, object)[] values) => Through(track, sound, null, values);

    /// <summary>The same with a key.</summary>
    public static (double[] Output, LayerHit[] Hits) Through(double[] track, double[] sound, double[]? key, params (Parameter, object)[] values)
    {
        var layer = Make(sound, track.Length, key is null ? 0 : 1, values);
        double[][]? keys = key is null ? null : [key];
        var output = Run.Through(layer, [track], 1, extraFrames: layer.LatencyFrames, key: keys)[0][layer.LatencyFrames..];
        return (output, layer.Hits.ToArray());
    }

    /// <summary>A processor for a mono track at 48 kHz.</summary>
    public static Layer Make(double[] sound, int frames, int keyChannels, params (Parameter, object)[] values)
    {
        var impulses = new Dictionary<string, Impulse> { ["sound"] = new("sound", Run.SampleRate, ImpulseLayout.Mono, [sound]) };
        var context = new ProcessorContext(new AudioFormat(Run.SampleRate, 1), frames, keyChannels, impulses) { Designs = Run.Designs };
        return (Layer)Layer.Definition.Create(Layer.Definition.With([(Layer.Sound, "sound"), .. values]).Settings, context);
    }

    /// <summary>Hits that are heard, those of them that were found, what was found beside them, and the worst distance from a place.</summary>
    public static (int Heard, int Found, int Strange, double WorstFrames) Judge(PlayedHits played, double[] sound, params (Parameter, object)[] values)
    {
        var (_, hits) = Through(played.Track, sound, values);
        var begins = Begins(sound);
        var (heard, found, worst) = (0, 0, 0.0);
        var used = new HashSet<int>();
        foreach (var place in played.Places)
        {
            var at = place + begins;
            var nearest = Enumerable.Range(0, hits.Length).MinBy(h => Math.Abs(hits[h].Frame - at));
            var away = Math.Abs(hits[nearest].Frame - at);
            var isHeard = StandsOutDb(played.Track, (int)at) >= HeardDb;
            heard += isHeard ? 1 : 0;
            if (away < Near)
            {
                used.Add(nearest);
                found += isHeard ? 1 : 0;
                worst = isHeard ? Math.Max(worst, away) : worst;
            }
        }

        return (heard, found, hits.Length - used.Count, worst);
    }

    /// <summary>Where in a sound its hit begins, as it is laid under hits: told by one hit at a whole frame.</summary>
    public static double Begins(double[] sound) => Through([.. new double[4800], .. sound, .. new double[9600]], sound, (Layer.Open, -60.0)).Hits[0].Frame - 4800;

    private static double StandsOutDb(double[] track, int frame) =>
        Spectrum.Decibels(track[(frame - 10)..(frame + 384)].Max(Math.Abs) / Math.Max(1e-9, track[(frame - 1536)..(frame - 10)].Max(Math.Abs)));
}
