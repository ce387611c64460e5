using DrumPrint.Chains.Format;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>Finds the mistakes of a chain that take more than one value to see.</summary>
/// <param name="problems">Gathers the mistakes.</param>
/// <param name="chain">The whole file.</param>
/// <param name="tempo">The tempo map; null when there is none or it cannot be read.</param>
internal sealed class ChainChecks(ProblemList problems, Values chain, TempoMap? tempo)
{
    private readonly IReadOnlyList<Values> _tracks = chain.Entries(ChainKeys.Tracks);
    private readonly IReadOnlyList<Values> _buses = chain.Entries(ChainKeys.Buses);
    private readonly IReadOnlyList<Values> _impulses = chain.Entries(ChainKeys.Impulses);

    private bool NamesTempo => chain.Group(ChainKeys.Song)?.Lacks(SongKeys.Tempo) != true;

    public void Run(IReadOnlyList<Reference> references)
    {
        Names();
        // Made once: a chain may refer to thousands of buses.
        var declared = new DeclaredNames([.. _tracks.Select(t => t.Name)], [.. _buses.Select(b => b.Name)], [.. _impulses.Select(i => i.Name)]);
        foreach (var reference in references.Where(r => !declared.Has(r)))
        {
            Undeclared(reference, declared);
        }

        foreach (var delayed in _tracks.Concat(_buses.SelectMany(b => b.Entries(BusKeys.From))).Concat(chain.Group(ChainKeys.Reference) is { } reference ? [reference] : []))
        {
            Delay(delayed);
        }

        foreach (var ride in _buses.SelectMany(b => b.Entries(BusKeys.From)).SelectMany(f => f.Entries(FeedKeys.Ride)))
        {
            Ride(ride);
        }

        foreach (var bus in _buses.Where(b => b.Entries(BusKeys.From) is { Count: > 0 } feeds && feeds.All(f => f.IsOn(FeedKeys.Off))))
        {
            problems.Add(bus.At(BusKeys.From), bus.PlaceOf(BusKeys.From), "every feed of this bus is off, so nothing comes into it. Leave one of them on.");
        }

        Click();
        new PrintChecks(problems, chain).Run();
        new WishChecks(problems, chain).Run();
        new BusCircles(problems, _buses, _tracks.Select(t => t.Name).ToHashSet()).Run();
    }

    private void Names()
    {
        var tracks = _tracks.DistinctBy(t => t.Name).ToDictionary(t => t.Name, StringComparer.Ordinal);
        foreach (var bus in _buses)
        {
            if (tracks.TryGetValue(bus.Name, out var track))
            {
                problems.Add(bus.Position, bus.Place, FormattableString.Invariant(
                    $"'{bus.Name}' is already the name of a track ({track.Position.LineWords}). Give the bus a name of its own, such as '{bus.Name} bus'."));
            }
        }
    }

    private void Undeclared(Reference reference, DeclaredNames declared)
    {
        var names = declared.For(reference.Kind);
        var what = reference.Kind switch
        {
            ReferenceKind.Bus => "bus",
            ReferenceKind.Impulse => "impulse",
            _ => "track or bus",
        };
        Parameter[] declaring = reference.Kind switch
        {
            ReferenceKind.Bus => [ChainKeys.Buses],
            ReferenceKind.Impulse => [ChainKeys.Impulses],
            _ => [ChainKeys.Tracks, ChainKeys.Buses],
        };
        if (declaring.Any(chain.IsUnknown))
        {
            return;
        }

        var shown = Show.Name(reference.Name);
        var advice = reference.Kind switch
        {
            ReferenceKind.Bus when declared.IsTrack(reference.Name) => " It is a track; make a bus of it and print that.",
            _ when Nearest.Word(reference.Name, names) is { } word => Wording.DidYouMean(word),
            _ when names.Count == 0 => $" The chain declares no {what}.",
            _ => $" The chain has {Wording.Names(names)}.",
        };
        problems.Add(reference.Position, reference.Place, $"there is no {what} called '{shown}'.{advice}");
    }

    private void Delay(Values delayed)
    {
        var given = DelayKeys.All.Where(delayed.Has).OrderBy(p => delayed.At(p).Line).ThenBy(p => delayed.At(p).Column).ToList();
        if (given.Count > 1)
        {
            problems.Add(delayed.At(given[1]), delayed.PlaceOf(given[1]), $"a delay is given once; this has {Show.List([.. given.Select(p => p.Key)])}. Keep one.");
        }

        var isExact = delayed.IsOn(DelayKeys.Exact);
        if (isExact && DelayKeys.All.All(delayed.Lacks) && delayed.Lacks(TrackKeys.Latency))
        {
            problems.Add(delayed.At(DelayKeys.Exact), delayed.PlaceOf(DelayKeys.Exact), $"'{DelayKeys.Exact.Key}' goes with a delay, and there is none. Give {Show.List([.. DelayKeys.All.Select(p => p.Key)], "or")}, or take it out.");
        }

        if (!isExact && !delayed.IsUnknown(DelayKeys.Exact) && delayed.Number(DelayKeys.Frames) is { } frames && frames != Math.Floor(frames))
        {
            problems.Add(
                delayed.At(DelayKeys.Frames),
                delayed.PlaceOf(DelayKeys.Frames),
                FormattableString.Invariant($"'{DelayKeys.Frames.Key}' is {frames}, which is no whole number of frames. Give {Math.Round(frames)}, or add \"{DelayKeys.Exact.Key}\": true to keep the part of a frame."));
        }
    }

    private void Ride(Values ride)
    {
        Parameter[] bars = [RideKeys.FromBar, RideKeys.ToBar];
        Parameter[] seconds = [RideKeys.FromSeconds, RideKeys.ToSeconds];
        var inBars = !bars.All(ride.Lacks);
        var inSeconds = !seconds.All(ride.Lacks);
        if (inBars && inSeconds)
        {
            problems.Add(ride.Position, ride.Place, "a ride runs in bars or in seconds, not both. Give from_bar and to_bar, or from_s and to_s.");
            return;
        }

        if (!inBars && !inSeconds)
        {
            if (ride.IsGroup)
            {
                problems.Add(ride.Position, ride.Place, "a ride needs from_bar and to_bar, or from_s and to_s.");
            }

            return;
        }

        var ends = inBars ? bars : seconds;
        foreach (var missing in ends.Where(ride.Lacks))
        {
            problems.Add(ride.Position, ride.PlaceOf(missing), $"'{missing.Key}' is missing; this ride has '{ends.First(e => !ride.Lacks(e)).Key}' only.");
        }

        if (inBars)
        {
            Bars(ride);
        }
        else if (ride.Number(RideKeys.FromSeconds) is { } from && ride.Number(RideKeys.ToSeconds) is { } to && to <= from)
        {
            problems.Add(ride.At(RideKeys.ToSeconds), ride.PlaceOf(RideKeys.ToSeconds), $"the ride ends at {Show.Number(to)} s, but it starts at {Show.Number(from)} s.");
        }
    }

    private void Bars(Values ride)
    {
        if (!NamesTempo)
        {
            problems.Add(ride.Position, ride.Place, "a ride in bars needs a tempo map. Name one in song.tempo, or use from_s and to_s.");
            return;
        }

        foreach (var end in new[] { RideKeys.FromBar, RideKeys.ToBar })
        {
            if (tempo is not null && ride.Number(end) is { } bar && (bar < tempo.FirstBar || bar > tempo.LastBar))
            {
                problems.Add(ride.At(end), ride.PlaceOf(end), FormattableString.Invariant(
                    $"the tempo map has no bar {bar}; it runs from bar {tempo.FirstBar} to {tempo.LastBar}. Nearest: {Math.Clamp(bar, tempo.FirstBar, tempo.LastBar)}."));
            }
        }

        if (ride.Number(RideKeys.FromBar) is { } from && ride.Number(RideKeys.ToBar) is { } to && to < from)
        {
            problems.Add(ride.At(RideKeys.ToBar), ride.PlaceOf(RideKeys.ToBar), $"the ride ends with bar {Show.Number(to)}, but it starts at bar {Show.Number(from)}.");
        }
    }

    private void Click()
    {
        if (!NamesTempo && chain.Group(ChainKeys.Output)?.Group(OutputKeys.Click) is { IsOff: false } click)
        {
            problems.Add(click.Position, click.Place, "a click needs a tempo map. Name one in song.tempo, or take the click out.");
        }
    }
}
