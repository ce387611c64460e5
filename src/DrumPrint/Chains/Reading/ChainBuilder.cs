using DrumPrint.Audio;
using DrumPrint.Chains.Format;
using DrumPrint.Dsp;

namespace DrumPrint.Chains.Reading;

/// <summary>Turns what a sound chain file gives into the model.</summary>
internal static class ChainBuilder
{
    public static Chain Build(Values chain, string path, TempoMap? tempo)
    {
        var drumBus = chain.Group(ChainKeys.DrumBus);
        var stages = Stages(drumBus?.Stages(DrumBusKeys.Through) ?? []);
        return new Chain(
            path,
            Song(chain.Group(ChainKeys.Song)!, tempo),
            [.. chain.Entries(ChainKeys.Tracks).Select(Track)],
            [.. chain.Entries(ChainKeys.Impulses).Select(Impulse)],
            [.. chain.Entries(ChainKeys.Buses).Select(Bus)],
            [.. chain.Entries(ChainKeys.Prints).Select(Print).OrderBy(p => p.Number)],
            stages.Heard,
            chain.Group(ChainKeys.Output) is { } output ? Output(output) : new OutputSettings())
        {
            DrumBusNotes = drumBus?.Text(DrumBusKeys.Notes),
            OffDrumBus = stages.Off,
            Accepted = [.. chain.Entries(ChainKeys.Accepted).Select(Accepted)],
            Delivery = chain.Group(ChainKeys.Delivery) is { } delivery ? Delivery(delivery) : DeliverySettings.None,
            Reference = chain.Group(ChainKeys.Reference) is { } reference ? Reference(reference) : null,
        };
    }

    private static Song Song(Values song, TempoMap? tempo) => new(
        song.Text(SongKeys.Title)!,
        song.Text(SongKeys.Code)!,
        song.Whole(SongKeys.Version),
        song.Whole(SongKeys.Rate),
        tempo,
        song.Number(SongKeys.PanLaw)!.Value,
        song.Number(SongKeys.Temperature)!.Value)
    {
        Notes = song.Text(SongKeys.Notes),
        Perspective = song.Word(SongKeys.Perspective) switch
        {
            SongKeys.Drummer => Perspective.Drummer,
            SongKeys.Audience => Perspective.Audience,
            _ => Perspective.Unsaid,
        },
    };

    private static Track Track(Values track) => new(
        track.Name,
        track.Text(TrackKeys.File) ?? track.Texts(TrackKeys.Files)[0],
        track.Number(TrackKeys.Level)!.Value,
        IsInverted(track),
        Delay(track) is { Amount: > 0 } delay ? delay : Chains.PathDelay.None with { IsExact = track.IsOn(DelayKeys.Exact) && track.Number(TrackKeys.Latency) > 0 },
        track.IsOn(TrackKeys.Convert),
        track.Position.Line)
    {
        Punched = track.Texts(TrackKeys.Files) is { Count: > 0 } files ? new PunchedFiles(files) : PunchedFiles.None,
        Channel = track.Channel(TrackKeys.Channel),
        LatencyMs = track.Number(TrackKeys.Latency)!.Value,
        At = track.PlaceIn(TrackKeys.At),
        Notes = track.Text(TrackKeys.Notes),
    };

    // Brought in as a track is, wherever it is heard.
    private static Track Reference(Values reference) => new(
        ChainKeys.Reference.Key, reference.Text(ReferenceKeys.File)!, 0, false, Delay(reference), reference.IsOn(ReferenceKeys.Convert), reference.Position.Line)
    {
        LatencyMs = reference.Number(ReferenceKeys.Latency)!.Value,
    };

    private static ImpulseFile Impulse(Values impulse) => new(
        impulse.Name,
        impulse.Text(ImpulseKeys.File)!,
        impulse.Word(ImpulseKeys.Layout) switch
        {
            ImpulseKeys.Mono => ImpulseLayout.Mono,
            ImpulseKeys.Stereo => ImpulseLayout.Stereo,
            ImpulseKeys.TrueStereo => ImpulseLayout.TrueStereo,
            _ => null,
        },
        impulse.Position.Line)
    {
        Licence = impulse.Text(ImpulseKeys.Licence),
        MayBePassedOn = impulse.IsOn(ImpulseKeys.PassOn),
    };

    private static Bus Bus(Values bus)
    {
        var feeds = Split(bus.Entries(BusKeys.From), f => f.IsOn(FeedKeys.Off), Feed);
        var stages = Stages(bus.Stages(BusKeys.Through));
        return new Bus(
            bus.Name,
            feeds.Heard,
            stages.Heard,
            bus.Word(BusKeys.Channels) switch
            {
                BusKeys.Mono => 1,
                BusKeys.Stereo => 2,
                _ => null,
            },
            bus.Position.Line)
        {
            OffFeeds = feeds.Off,
            OffStages = stages.Off,
        };
    }

    private static Feed Feed(Values feed) => new(
        feed.Name,
        feed.Number(FeedKeys.Level)!.Value,
        feed.Number(FeedKeys.Pan),
        IsInverted(feed),
        Delay(feed),
        [.. feed.Entries(FeedKeys.Ride).Select(Ride)],
        feed.Position.Line);

    private static Ride Ride(Values ride)
    {
        var inBars = ride.Has(RideKeys.FromBar);
        var (from, to) = inBars ? (RideKeys.FromBar, RideKeys.ToBar) : (RideKeys.FromSeconds, RideKeys.ToSeconds);
        return new Ride(
            ride.Number(from)!.Value, ride.Number(to)!.Value, inBars, ride.Number(RideKeys.Db)!.Value, ride.Number(RideKeys.Fade)!.Value);
    }

    private static Print Print(Values print) => new(
        print.Whole(PrintKeys.Number),
        print.Text(PrintKeys.Name)!,
        print.Text(PrintKeys.Bus)!,
        print.Number(PrintKeys.Level)!.Value,
        print.IsOn(PrintKeys.Optional),
        print.Position.Line)
    {
        Notes = print.Text(PrintKeys.Notes),
        Keep = print.Word(PrintKeys.Keep) switch
        {
            PrintKeys.Must => PrintKeep.Must,
            PrintKeys.Nice => PrintKeep.Nice,
            PrintKeys.FirstOut => PrintKeep.FirstOut,
            _ => PrintKeep.Unsaid,
        },
    };

    private static Acceptance Accepted(Values accepted) => new(
        accepted.Text(AcceptedKeys.Rule)!,
        accepted.Text(AcceptedKeys.Track),
        accepted.Text(AcceptedKeys.Why)!,
        (int?)accepted.Number(AcceptedKeys.UpTo),
        accepted.Position.Line);

    private static DeliverySettings Delivery(Values delivery) => new()
    {
        Names = delivery.Text(DeliveryKeys.Names),
        Wishes = [.. delivery.Entries(DeliveryKeys.Wishes).Select(w => new Wish(
            w.Whole(WishKeys.Version), w.Text(WishKeys.Wish)!, w.Texts(WishKeys.About), w.Text(WishKeys.Answer), w.Position.Line))],
    };

    private static OutputSettings Output(Values output) => new()
    {
        Encoding = output.Word(OutputKeys.Bits) switch
        {
            OutputKeys.Bits16 => SampleEncoding.Pcm16,
            OutputKeys.Bits32Float => SampleEncoding.Float32,
            _ => SampleEncoding.Pcm24,
        },
        Dither = output.Word(OutputKeys.Dither) switch
        {
            OutputKeys.None => false,
            OutputKeys.Triangular => true,
            _ => null,
        },
        TailS = output.Number(OutputKeys.Tail),
        TailCapS = output.Number(OutputKeys.TailCap)!.Value,
        LowerTogether = output.Word(OutputKeys.Over) == OutputKeys.LowerTogether,
        OverAtTruePeak = output.Word(OutputKeys.OverAt) == OutputKeys.TruePeak,
        Rough = Beside(output, OutputKeys.Rough, BesideKeys.Rough),
        RoughWithBus = Beside(output, OutputKeys.RoughWithBus, BesideKeys.RoughWithBus),
        Click = Beside(output, OutputKeys.Click, BesideKeys.Click),
    };

    private static RoughPrint? Beside(Values output, ShapeParameter parameter, BesideKeys keys)
    {
        var values = output.Group(parameter) ?? new Values("", output.Position, output.Place) { IsOff = !keys.Shape.IsOnByDefault };
        return values.IsOff ? null : new RoughPrint(values.Whole(keys.Number), values.Text(keys.Name)!, keys.Level is null ? 0 : values.Number(keys.Level)!.Value);
    }

    private static bool IsInverted(Values values) => values.Word(PolarityKeys.Polarity) == PolarityKeys.Inverted;

    private static PathDelay Delay(Values values)
    {
        var given = DelayKeys.All.FirstOrDefault(values.Has);
        return given is not null && values.Number(given) is { } amount and > 0 ? new PathDelay(amount, given.Unit, values.IsOn(DelayKeys.Exact)) : Chains.PathDelay.None;
    }

    private static (List<Stage> Heard, List<TurnedOff<Stage>> Off) Stages(IReadOnlyList<StageValues> stages) => Split(stages, s => s.IsOff, s => s.ToStage());

    private static (List<T> Heard, List<TurnedOff<T>> Off) Split<TValues, T>(IEnumerable<TValues> values, Func<TValues, bool> isOff, Func<TValues, T> make)
    {
        var (heard, off) = (new List<T>(), new List<TurnedOff<T>>());
        foreach (var value in values)
        {
            if (isOff(value))
            {
                off.Add(new TurnedOff<T>(make(value), heard.Count));
            }
            else
            {
                heard.Add(make(value));
            }
        }

        return (heard, off);
    }
}
