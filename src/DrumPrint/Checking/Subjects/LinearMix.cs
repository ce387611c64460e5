using DrumPrint.Chains;
using DrumPrint.Checking.Takes;
using DrumPrint.Dsp.Alignment;
using DrumPrint.Dsp.Mixing;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Checking.Subjects;

/// <summary>One way from a raw track to a bus: levels, polarity, delay and sides, without processors and rides.</summary>
/// <param name="Take">The raw track.</param>
/// <param name="Left">Gain on the left; the only gain of a mono bus.</param>
/// <param name="Right">Gain on the right.</param>
/// <param name="DelayFrames">Delay in whole frames.</param>
internal sealed record MixPath(CheckedTake Take, double Left, double Right, long DelayFrames);

/// <summary>What a bus would be if it had no processors: the input its print is held against.</summary>
internal sealed class LinearMix
{
    private LinearMix(IReadOnlyList<MixPath> paths) => Paths = paths;

    public IReadOnlyList<MixPath> Paths { get; }

    /// <summary>Follows a bus up to its raw tracks.</summary>
    /// <returns>Null where a raw track cannot be read, or is at another rate.</returns>
    public static LinearMix? Of(Chain chain, string bus, IReadOnlyDictionary<string, CheckedTake> raws)
    {
        var paths = new List<MixPath>();
        return Add(chain, bus, raws, 1, 1, 0, paths) && paths.Count > 0 ? new LinearMix(paths) : null;
    }

    /// <summary>Reads one side of the mix; −1 for the mean of both.</summary>
    public FrameReader Reader(Windows windows, int side)
    {
        var readers = Paths.Select(p => (Read: windows.Middle(p.Take), p.DelayFrames, Gain: side < 0 ? (p.Left + p.Right) / 2 : side == 0 ? p.Left : p.Right)).ToList();
        return (first, frames) =>
        {
            frames.Clear();
            var part = new double[frames.Length];
            foreach (var (read, delay, gain) in readers)
            {
                read(first - delay, part);
                for (var n = 0; n < part.Length; n++)
                {
                    frames[n] += gain * part[n];
                }
            }
        };
    }

    private static bool Add(Chain chain, string name, IReadOnlyDictionary<string, CheckedTake> raws, double left, double right, long delay, List<MixPath> paths)
    {
        if (chain.Tracks.FirstOrDefault(t => t.Name == name) is { } track)
        {
            if (raws.GetValueOrDefault(name) is not { Figures: { } figures } take || figures.RateHz != chain.Song.RateHz)
            {
                return false;
            }

            var gain = Decibels.ToGain(track.LevelDb) * (track.IsInverted ? -1 : 1);
            paths.Add(new MixPath(take, gain * left, gain * right, delay + track.Wait(chain.Song.RateHz, chain.Song.TemperatureC).ToFrames(chain.Song.RateHz, chain.Song.TemperatureC)));
            return true;
        }

        foreach (var feed in chain.Buses.First(b => b.Name == name).Feeds)
        {
            var gain = Decibels.ToGain(feed.LevelDb) * (feed.IsInverted ? -1 : 1);
            var (l, r) = feed.PanPct is { } pan ? PanLaw.Mono(pan, chain.Song.PanLawDb) : (1, 1);
            if (!Add(chain, feed.Source, raws, gain * l * left, gain * r * right, delay + feed.Delay.ToFrames(chain.Song.RateHz, chain.Song.TemperatureC), paths))
            {
                return false;
            }
        }

        return true;
    }
}
