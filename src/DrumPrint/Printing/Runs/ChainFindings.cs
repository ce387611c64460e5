using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Language;
using DrumPrint.Session;

namespace DrumPrint.Printing.Runs;

/// <summary>What in a chain is allowed but hardly meant, in sentences.</summary>
internal static class ChainFindings
{
    // Some 34 m of air: farther than a room microphone stands (common practice, no source).
    private const double LongestDelayS = 0.1;

    /// <summary>All of them.</summary>
    /// <param name="setup">The run.</param>
    /// <param name="end">Song frame at which the prints end.</param>
    public static IEnumerable<string> Of(RunSetup setup, long end) =>
        [.. SameFiles(setup), .. UnusedTracks(setup.Chain), .. ShortTracks(setup), .. LongDelays(setup.Chain), .. LateRides(setup, end)];

    private static IEnumerable<string> SameFiles(RunSetup setup) => setup.Chain.Tracks
        .GroupBy(t => (setup.Inputs.Tracks[t.Name].Splice?.Key ?? Path.GetFullPath(setup.Inputs.Tracks[t.Name].Path), setup.Inputs.Tracks[t.Name].Channel))
        .Where(g => g.Count() > 1)
        .Select(g => $"Tracks {Show.List([.. g.Select(Name)])} are the same {(g.Key.Channel is null ? "" : FormattableString.Invariant($"channel {g.Key.Channel + 1} of the "))}file, {g.First().FileWords}. If that is meant, feed one track to several buses instead.");

    private static IEnumerable<string> UnusedTracks(Chain chain)
    {
        var used = chain.Buses.SelectMany(b => b.Feeds.Select(f => f.Source))
            .Concat(chain.Buses.SelectMany(b => b.Stages).Concat(chain.DrumBus).Select(s => s.Key))
            .Concat(chain.Buses.SelectMany(b => b.OffFeeds.Select(f => f.What.Source).Concat(b.OffStages.Select(s => s.What.Key))))
            .ToHashSet(StringComparer.Ordinal);
        return chain.Tracks
            .Where(t => !used.Contains(t.Name))
            .Select(t => $"Track {Name(t)} ({t.FileWords}) is used by no bus, so nothing of it is heard. Feed it to a bus, or take it out of the chain.");
    }

    // Takes of one song are as long as the song; a file that was cut off or bounced by its clip alone is not.
    private static IEnumerable<string> ShortTracks(RunSetup setup)
    {
        var rate = setup.Chain.Song.RateHz;
        var longest = setup.Inputs.Tracks.Values.Select(t => t.Frames).DefaultIfEmpty().Max();
        return setup.Chain.Tracks
            .Select(t => setup.Inputs.Tracks[t.Name])
            .Where(t => t.Frames < longest / 2)
            .Select(t => $"Track {Name(t.Track)} ({t.Track.FileWords}) ends after {Number(Math.Round((double)t.Frames / rate, 1))} s, the longest track after {Number(Math.Round((double)longest / rate, 1))} s. If it was cut short, bring it from the song's start to its end.");
    }

    // A track is delayed to line up microphones; what is longer than any room is a slip of the pen.
    private static IEnumerable<string> LongDelays(Chain chain)
    {
        var song = chain.Song;
        var speed = PathDelay.SpeedOfSound(song.TemperatureC);
        foreach (var track in chain.Tracks)
        {
            var seconds = (double)track.Delay.ToFrames(song.RateHz, song.TemperatureC) / song.RateHz;
            if (seconds > LongestDelayS)
            {
                yield return string.Create(CultureInfo.InvariantCulture, $"Track {Name(track)} is delayed by {seconds * 1000:0.##} ms, what sound takes over {seconds * speed:0} m; microphones of one kit are not {LongestDelayS * speed:0} m apart ({LongestDelayS * 1000:0} ms). Look at the decimal point. If it is an effect, delay the feed instead.");
            }
        }
    }

    // A track has nothing left after the raw tracks end, a bus may ring on to the end of the prints.
    private static IEnumerable<string> LateRides(RunSetup setup, long end)
    {
        var song = setup.Chain.Song;
        foreach (var bus in setup.Chain.Buses)
        {
            foreach (var feed in bus.Feeds)
            {
                var over = setup.Inputs.Tracks.ContainsKey(feed.Source) ? Math.Min(end, setup.Planner.RawEnd + feed.Delay.ToFrames(song.RateHz, song.TemperatureC)) : end;
                foreach (var ride in feed.Rides.Where(r => RideFrames.Of(r, song).From >= over))
                {
                    var from = ride.InBars ? $"bar {Number(ride.From)}" : $"{Number(ride.From)} s";
                    yield return $"Bus '{Show.Name(bus.Name)}': the ride of '{Show.Name(feed.Source)}' that begins at {from} is never heard, for the sound ends at {Number((double)over / song.RateHz)} s.";
                }
            }
        }
    }

    private static string Name(Track track) => $"'{Show.Name(track.Name)}'";

    private static string Number(double number) => number.ToString("0.###", CultureInfo.InvariantCulture);
}
