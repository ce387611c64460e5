using System.Numerics;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Tests.Support;

/// <summary>A track of hits whose places are known to a part of a frame: drums invented for tests, played at random.</summary>
/// <param name="Track">The track.</param>
/// <param name="Places">Where the sound's first frame lies for each hit.</param>
/// <param name="Heights">What each hit's sound is multiplied by.</param>
internal sealed record PlayedHits(double[] Track, double[] Places, double[] Heights)
{
    private const int Reach = 64;

    /// <summary>A drum: decaying modes under a decaying burst of noise, after 2 ms of silence. Nothing of it lies above 0.4 of the rate.</summary>
    public static double[] Drum(double freqHz, double ringMs, double noise, double noiseMs, ulong seed, int frames = 9600)
    {
        var source = new CounterNoise(seed);
        var raw = new double[frames];
        for (var n = 96; n < frames; n++)
        {
            var t = (n - 96) / 48.0;
            var rise = 1 - Math.Exp(-t / 0.3);
            var modes = 0.0;
            foreach (var (ratio, part) in new[] { (1.0, 1.0), (1.594, 0.5), (2.136, 0.35), (2.296, 0.25) })
            {
                modes += part * Math.Sin(2 * Math.PI * freqHz * ratio * t / 1000) * Math.Exp(-t * ratio / ringMs);
            }

            raw[n] = rise * (1 - Math.Pow(n / (double)frames, 4)) * ((modes * 0.5) + (noise * source.Bipolar(n) * Math.Exp(-t / noiseMs)));
        }

        return Soft(raw);
    }

    /// <summary>A click through a resonance.</summary>
    public static double[] Click(double freqHz, double ringMs, int frames = 4800) => Soft(
        [.. Enumerable.Range(0, frames).Select(n => n < 96 ? 0 : 0.8 * (1 - Math.Pow(n / (double)frames, 4)) * Math.Exp(-(n - 96) / (48 * ringMs)) * Math.Cos(2 * Math.PI * freqHz * (n - 96) / 48000))]);

    /// <summary>Plays a sound at random.</summary>
    /// <param name="sound">The sound.</param>
    /// <param name="hits">How often.</param>
    /// <param name="rangeDb">The softest hit lies so far under the loudest.</param>
    /// <param name="leastMs">Shortest time between two hits; the longest is four times that.</param>
    /// <param name="seed">Of the playing.</param>
    public static PlayedHits Of(double[] sound, int hits, double rangeDb, double leastMs, ulong seed)
    {
        var random = new CounterNoise(seed);
        double Drawn(int what, int hit) => (random.Bipolar((1000L * what) + hit) + 1) / 2;
        var place = 4800.0;
        var (places, heights) = (new double[hits], new double[hits]);
        for (var i = 0; i < hits; i++)
        {
            (places[i], heights[i]) = (place, Math.Pow(10, -rangeDb * Drawn(1, i) / 20));
            place += 48 * leastMs * (1 + (3 * Drawn(2, i)));
        }

        var track = new double[(int)place + sound.Length + 4800];
        for (var i = 0; i < hits; i++)
        {
            Add(track, sound, places[i], heights[i]);
        }

        return new PlayedHits(track, places, heights);
    }

    /// <summary>The same track with more in it.</summary>
    public PlayedHits Under(double[] other, double gain) => this with { Track = [.. Track.Select((x, n) => x + (n < other.Length ? gain * other[n] : 0))] };

    /// <summary>Adds a sound at any place: a sinc under a cosine window, worked out here.</summary>
    public static void Add(double[] track, double[] sound, double place, double height)
    {
        var whole = (int)Math.Floor(place);
        var part = place - whole;
        var taps = new double[2 * Reach];
        for (var i = 0; i < taps.Length; i++)
        {
            var x = i - Reach + 1 - part;
            taps[i] = Math.Abs(x) < 1e-12 ? 1 : Math.Abs(x) >= Reach ? 0 : Math.Sin(Math.PI * x) / (Math.PI * x) * Math.Pow(Math.Cos(Math.PI * x / (2 * Reach)), 2);
        }

        for (var n = 0; n < sound.Length; n++)
        {
            if (sound[n] == 0)
            {
                continue;
            }

            // From the first tap to the last that the track has room for; neighbours do not wait for each other.
            var (first, level) = (whole + n - Reach + 1, height * sound[n]);
            var i = Math.Max(0, -first);
            var end = Math.Min(taps.Length, track.Length - first);
            for (; i <= end - Vector<double>.Count; i += Vector<double>.Count)
            {
                (new Vector<double>(track, first + i) + (level * new Vector<double>(taps, i))).CopyTo(track, first + i);
            }

            for (; i < end; i++)
            {
                track[first + i] += level * taps[i];
            }
        }
    }

    /// <summary>Where a sound lies best over a track near a place, by plain sums at every hundredth of a frame: the oracle of places.</summary>
    /// <param name="track">The track.</param>
    /// <param name="sound">The sound.</param>
    /// <param name="near">Where to look.</param>
    /// <param name="reach">How far, in frames.</param>
    /// <returns>Place, and the sign of the correlation there.</returns>
    public static (double Place, int Sign) Best(double[] track, double[] sound, double near, int reach)
    {
        double Sum(int lag) => sound.Select((s, n) => lag + n >= 0 && lag + n < track.Length ? s * track[lag + n] : 0).Sum();
        var first = (int)Math.Round(near) - reach - Reach;
        double[] sums = [.. Enumerable.Range(first, 2 * (reach + Reach)).Select(Sum)];
        var best = Enumerable.Range(Reach, 2 * reach).MaxBy(i => Math.Abs(sums[i]));
        var sign = Math.Sign(sums[best]);
        double At(double place)
        {
            var whole = (int)Math.Floor(place);
            var sum = 0.0;
            for (var i = Math.Max(0, whole - Reach + 1); i < Math.Min(sums.Length, whole + Reach); i++)
            {
                var x = place - i;
                sum += sums[i] * (Math.Abs(x) < 1e-12 ? 1 : Math.Sin(Math.PI * x) / (Math.PI * x) * Math.Pow(Math.Cos(Math.PI * x / (2 * Reach)), 2));
            }

            return sign * sum;
        }

        var place = Enumerable.Range(-100, 201).Select(i => best + (i / 100.0)).MaxBy(At);
        return (first + place, sign);
    }

    /// <summary>Where a window lies best over a track by the correlation coefficient, each shift worked out by plain sums.</summary>
    public static (double Place, int Sign) BestLike(double[] track, double[] window, double near, int reach)
    {
        double Like(double place)
        {
            var whole = (int)Math.Floor(place);
            var x = new double[window.Length];
            for (var i = -Reach + 1; i <= Reach; i++)
            {
                var away = i - (place - whole);
                var tap = Math.Abs(away) < 1e-12 ? 1 : Math.Abs(away) >= Reach ? 0 : Math.Sin(Math.PI * away) / (Math.PI * away) * Math.Pow(Math.Cos(Math.PI * away / (2 * Reach)), 2);
                for (var n = 0; tap != 0 && n < x.Length; n++)
                {
                    x[n] += tap * (whole + n + i >= 0 && whole + n + i < track.Length ? track[whole + n + i] : 0);
                }
            }

            return window.Zip(x, (a, b) => a * b).Sum() / Math.Sqrt(window.Sum(a => a * a) * x.Sum(b => b * b));
        }

        double best = Enumerable.Range((int)Math.Round(near) - reach, 2 * reach).MaxBy(n => Math.Abs(window.Select((w, i) => w * track[n + i]).Sum() / Math.Sqrt(window.Select((_, i) => track[n + i] * track[n + i]).Sum())));
        best = Enumerable.Range(-20, 41).Select(i => best + (i / 20.0)).MaxBy(p => Math.Abs(Like(p)));
        best = Enumerable.Range(-5, 11).Select(i => best + (i / 100.0)).MaxBy(p => Math.Abs(Like(p)));
        return (best, Math.Sign(Like(best)));
    }

    // Two means of three frames: a zero at a third of the rate, and little above.
    private static double[] Soft(double[] x)
    {
        double Get(double[] y, int n) => n >= 0 && n < y.Length ? y[n] : 0;
        for (var pass = 0; pass < 2; pass++)
        {
            var from = x;
            x = [.. from.Select((_, n) => (0.25 * Get(from, n - 1)) + (0.5 * Get(from, n)) + (0.25 * Get(from, n + 1)))];
        }

        return x;
    }
}
