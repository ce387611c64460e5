using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Conformance.Checks;

/// <summary>Sounds under hits: found, in their place, as loud as the hit.</summary>
internal static class LayerChecks
{
    public const string Note = """
        Drums invented for the sheet are played at random: levels over 30 dB, 110 to 440 ms apart, at places between the frames, over noise at
        −80 dBFS. A hit is heard when it stands 8 dB above the 32 ms before it; a softer one lies in what rings on. The sound that is played is
        a hit of the same drum, so the place of best correlation is the place it was put at.
        """;

    private const string Truth = "own truth: places known to a part of a frame";
    private const int Hits = 200;

    public static IEnumerable<Check> All() =>
    [
        .. LayerRuns.Drums.SelectMany(drum => Rows($"{drum.Key}", new(() => Played(drum.Value, drum.Value, null)))),
        .. Rows("snare, a kick 30 dB down, least_match_pct 50", new(() => Played(LayerRuns.Drums["snare"], LayerRuns.Drums["snare"], LayerRuns.Drums["kick"]))),
        new("layer", "a sound under itself at whole frames: largest difference between track and layer", "definition", Bar.AtMost(-100, "dBFS", 0), ItselfDb),
        new("layer", "levels over 30 dB, follow_pct 100: worst distance of the sound's gain from the hit's", Truth, Bar.AtMost(0.1, "dB", 3), WorstLevelDb),
        new("layer", "another sound than the hit's: worst distance from the best correlation coefficient of 41 ms, each shift summed plainly", "definition: Σ s x / √(Σ s² Σ x²)", Bar.AtMost(0.1, "frames", 2), WorstOfAnother),
    ];

    private static IEnumerable<Check> Rows(string what, Lazy<(int Heard, int Found, int Strange, double Worst)> played) =>
    [
        new("layer", $"{what}: hits that were found, of those heard", Truth, Bar.AtLeast(99.5, "%", 1), () => 100.0 * played.Value.Found / played.Value.Heard),
        new("layer", $"{what}: found where none was played", Truth, Bar.AtMost(0.2, "%", 1), () => 100.0 * played.Value.Strange / played.Value.Heard),
        new("layer", $"{what}: worst distance from its place", Truth, Bar.AtMost(0.1, "frames", 2), () => played.Value.Worst),
    ];

    private static (int Heard, int Found, int Strange, double Worst) Played(double[] drum, double[] sound, double[]? other)
    {
        var played = PlayedHits.Of(drum, Hits, 30, 110, 211);
        played = played.Under(Signals.Noise(played.Track.Length, 5), 1e-4);
        return other is null
            ? LayerRuns.Judge(played, sound, (Layer.Open, -50.0))
            : LayerRuns.Judge(played.Under(PlayedHits.Of(other, Hits, 12, 110, 212).Track, 0.0316), sound, (Layer.Open, -50.0), (Layer.LeastMatch, 50.0));
    }

    private static double ItselfDb()
    {
        var sound = LayerRuns.Drums["snare"];
        double[] track = [.. new double[5000], .. sound, .. new double[3000], .. sound.Select(x => -x / 3), .. new double[9600]];
        var output = LayerRuns.Through(track, sound).Output;
        return Spectrum.Decibels(track.Zip(output, (x, y) => Math.Abs(x - y)).Max());
    }

    private static double WorstLevelDb()
    {
        var played = PlayedHits.Of(LayerRuns.Drums["snare"], 40, 30, 400, 213);
        var hits = LayerRuns.Through(played.Track, LayerRuns.Drums["snare"], (Layer.Open, -60.0)).Hits;
        return played.Heights.Zip(hits, (height, hit) => Math.Abs(hit.GainDb - Spectrum.Decibels(height))).Max();
    }

    private static double WorstOfAnother()
    {
        var sound = PlayedHits.Drum(205, 60, 0.3, 40, 99);
        var played = PlayedHits.Of(LayerRuns.Drums["snare"], 6, 20, 400, 214);
        var begins = (int)LayerRuns.Begins(sound);
        return LayerRuns.Through(played.Track, sound).Hits.Max(hit => Math.Abs(hit.Frame - 48 - PlayedHits.BestLike(played.Track, sound[(begins - 48)..(begins + 1920)], hit.Frame - 48, 100).Place));
    }
}
