using DrumPrint.Chains;
using DrumPrint.Chains.Format;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Diff;

/// <summary>What changed in one bus.</summary>
internal static class BusChanges
{
    /// <summary>One sentence for each change, without the bus.</summary>
    /// <param name="a">The bus before.</param>
    /// <param name="b">The bus now.</param>
    public static IEnumerable<string> Of(Bus a, Bus b)
    {
        var (before, now) = (new ByName<Feed>(a.Feeds, f => f.Source), new ByName<Feed>(b.Feeds, f => f.Source));
        foreach (var feed in b.Feeds)
        {
            if (before.Find(feed.Source) is not { } old)
            {
                yield return $"{feed.Source} added at {ChangeWords.Number(feed.LevelDb)} dB";
                continue;
            }

            foreach (var change in Of(old, feed))
            {
                yield return $"{feed.Source} {change}";
            }
        }

        foreach (var feed in a.Feeds.Where(f => now.Find(f.Source) is null))
        {
            yield return $"{feed.Source} left out (it was at {ChangeWords.Number(feed.LevelDb)} dB)";
        }

        if (!before.IsInOrderOf(now))
        {
            yield return $"summed in another order: {string.Join(", ", b.Feeds.Select(f => f.Source))}";
        }

        if (a.Channels != b.Channels)
        {
            yield return ChangeWords.Moved("channels", Channels(a.Channels), Channels(b.Channels));
        }

        foreach (var change in StageChanges.Of(a.Stages, b.Stages))
        {
            yield return change;
        }
    }

    private static IEnumerable<string> Of(Feed a, Feed b)
    {
        if (a.LevelDb != b.LevelDb)
        {
            yield return ChangeWords.Moved(FeedKeys.Level.Key, Unit.Decibels, a.LevelDb, b.LevelDb);
        }

        if (a.PanPct != b.PanPct)
        {
            yield return ChangeWords.Moved(FeedKeys.Pan.Key, Unit.Percent, a.PanPct, b.PanPct);
        }

        if (a.IsInverted != b.IsInverted)
        {
            yield return ChangeWords.Moved("polarity", ChangeWords.Polarity(a.IsInverted), ChangeWords.Polarity(b.IsInverted));
        }

        if (a.Delay != b.Delay)
        {
            yield return ChangeWords.Moved(a.Delay, b.Delay);
        }

        foreach (var (one, other) in SideBySide.Of(a.Rides, b.Rides, (_, _) => true, (x, y) => x == y))
        {
            switch (one, other)
            {
                case ({ } x, { } y) when x != y:
                    var (from, to) = ChangeWords.Apart(write => Text(x, write), write => Text(y, write));
                    yield return $"ride {from} → {to}";
                    break;
                case ({ } x, null):
                    yield return $"ride {Text(x, ChangeWords.Number)} left out";
                    break;
                case (null, { } y):
                    yield return $"ride {Text(y, ChangeWords.Number)} added";
                    break;
            }
        }
    }

    private static string Text(Ride ride, Func<double, string> write)
    {
        var place = ride.InBars ? $"bars {write(ride.From)} to {write(ride.To)}" : $"{write(ride.From)} to {write(ride.To)} s";
        return $"{place} {(ride.Db > 0 ? "+" : "")}{write(ride.Db)} dB in {write(ride.FadeMs)} ms";
    }

    private static string Channels(int? channels) => channels switch
    {
        1 => BusKeys.Mono,
        2 => BusKeys.Stereo,
        _ => BusKeys.Auto,
    };
}
