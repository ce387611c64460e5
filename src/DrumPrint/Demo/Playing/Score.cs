using DrumPrint.Chains;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Playing;

/// <summary>The performance: every hit of the song with its human timing and strength.</summary>
internal static class Score
{
    /// <summary>How many slightly different sounds each stroke has.</summary>
    public const int Takes = 4;

    private const double TimingSpreadS = 0.004;
    private const double LargestSlipS = 0.010;
    private const double GhostLoudestDb = -18;
    private const double GhostSoftestDb = -28;

    /// <summary>The hits in the bars of <paramref name="map"/>, in order of time. The same bar is played the same in any
    /// excerpt.</summary>
    public static IReadOnlyList<PlayedHit> Of(TempoMap map)
    {
        var whole = SongForm.Whole;
        var start = whole.SecondsAtBar(map.FirstBar);
        var counts = new Dictionary<Stroke, int>();
        var hits = new List<PlayedHit>();
        for (var bar = whole.FirstBar; bar <= map.LastBar; bar++)
        {
            foreach (var (stroke, sixteenth, letter) in Notes(bar))
            {
                var index = counts.GetValueOrDefault(stroke);
                counts[stroke] = index + 1;
                if (bar >= map.FirstBar)
                {
                    var seconds = whole.SecondsAtBar(bar) + (sixteenth * whole.StretchAt(bar).SecondsPerBeat / 4) - start;
                    hits.Add(Play(stroke, index, seconds, letter));
                }
            }
        }

        return Choke([.. hits.OrderBy(h => h.Frame).ThenBy(h => h.Stroke)]);
    }

    private static IEnumerable<(Stroke Stroke, int Sixteenth, char Letter)> Notes(int bar)
    {
        if (bar == SongForm.Whole.LastBar || (bar > 1 && SongForm.Whole.Sections.Any(s => s.FromBar == bar)))
        {
            yield return (Stroke.Crash, 0, 'X');
        }

        foreach (var (stroke, line) in Groove.OfBar(bar).Lines)
        {
            for (var i = 0; i < line.Length; i++)
            {
                if (line[i] != '.')
                {
                    yield return (stroke, i, line[i]);
                }
            }
        }
    }

    private static PlayedHit Play(Stroke stroke, int index, double seconds, char letter)
    {
        var noise = CounterNoise.FromName($"slow ferry/playing/{stroke}/{index}");
        var slip = Math.Clamp(Gaussian.Draw(noise, 0) * TimingSpreadS, -LargestSlipS, LargestSlipS);
        var frame = (long)Math.Round((seconds + MeanSlipS(stroke) + slip) * SongForm.SampleRate, MidpointRounding.AwayFromZero);
        var level = letter switch
        {
            'X' => 0,
            'x' => -3,
            'o' => -8,
            _ => GhostSoftestDb + ((GhostLoudestDb - GhostSoftestDb) * noise.Unit(100)),
        };
        var spread = letter == 'g' ? 0 : noise.Bipolar(101) * SpreadDb(stroke);
        var take = (int)(noise.Bits(102) % Takes);
        return new PlayedHit(stroke, Math.Max(0, frame), level + spread, take, long.MaxValue);
    }

    private static double MeanSlipS(Stroke stroke) => stroke switch
    {
        Stroke.HatClosed or Stroke.HatOpen or Stroke.HatFoot or Stroke.Ride => -0.002,
        Stroke.Backbeat or Stroke.Ghost or Stroke.RimClick => 0.006,
        _ => 0,
    };

    private static double SpreadDb(Stroke stroke) => stroke switch
    {
        Stroke.Backbeat or Stroke.RimClick => 2,
        Stroke.Kick or Stroke.Rack or Stroke.Floor or Stroke.Crash => 1.5,
        _ => 2.5,
    };

    // The next stroke on the hats ends the ringing of the one before.
    private static PlayedHit[] Choke(PlayedHit[] hits)
    {
        var next = long.MaxValue;
        for (var i = hits.Length - 1; i >= 0; i--)
        {
            if (hits[i].Stroke is Stroke.HatClosed or Stroke.HatOpen or Stroke.HatFoot)
            {
                hits[i] = hits[i] with { StopFrame = next };
                next = hits[i].Frame;
            }
        }

        return hits;
    }
}
