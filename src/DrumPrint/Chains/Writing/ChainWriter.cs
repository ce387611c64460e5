using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Chains.Reading;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Writing;

/// <summary>
/// Writes a chain in its canonical form: every default and revision spelled out, keys in one order, no comments. Chains that
/// mean the same give the same text, whatever they look like.
/// </summary>
/// <remarks>Tracks, buses, feeds and processors keep their order, for the order of a sum is part of its last bit. Prints stand
/// by number. A value that is off is left out.</remarks>
public static partial class ChainWriter
{
    /// <summary>The canonical text of a chain; reading it gives the same chain.</summary>
    public static string Canonical(Chain chain)
    {
        ArgumentNullException.ThrowIfNull(chain);
        return CanonicalJson.Text(json => Write(json, chain));
    }

    internal static void Write(Utf8JsonWriter json, Chain chain)
    {
        json.WriteStartObject();
        json.WriteNumber(ChainKeys.Chain.Key, ChainKeys.Format);
        Write(json, chain.Song);
        Named(json, ChainKeys.Tracks, chain.Tracks, t => t.Name, Write);
        Named(json, ChainKeys.Impulses, chain.Impulses, i => i.Name, Write);
        Named(json, ChainKeys.Buses, chain.Buses, b => b.Name, Write);
        List(json, ChainKeys.Prints, chain.Prints, Write);
        json.WriteStartObject(ChainKeys.DrumBus.Key);
        List(json, DrumBusKeys.Through, InOrder(chain.DrumBus, chain.OffDrumBus), Write);
        Notes(json, DrumBusKeys.Notes, chain.DrumBusNotes);
        json.WriteEndObject();
        Write(json, chain.Output);

        // Most chains sign nothing off, and their text stays as it was.
        if (chain.Accepted.Count > 0)
        {
            List(json, ChainKeys.Accepted, chain.Accepted, Write);
        }

        if (chain.Delivery.Names is not null || chain.Delivery.Wishes.Count > 0)
        {
            Write(json, chain.Delivery);
        }

        if (chain.Reference is { } reference)
        {
            Reference(json, reference);
        }

        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Song song)
    {
        json.WriteStartObject(ChainKeys.Song.Key);
        json.WriteString(SongKeys.Title.Key, song.Title);
        json.WriteString(SongKeys.Code.Key, song.Code);
        json.WriteNumber(SongKeys.Version.Key, song.Version);
        json.WriteNumber(SongKeys.Rate.Key, song.RateHz);
        if (song.Tempo is { } tempo)
        {
            json.WriteString(SongKeys.Tempo.Key, tempo.File);
        }

        json.WriteNumber(SongKeys.PanLaw.Key, song.PanLawDb);
        json.WriteNumber(SongKeys.Temperature.Key, song.TemperatureC);
        if (song.Perspective != Perspective.Unsaid)
        {
            json.WriteString(SongKeys.Perspective.Key, PerspectiveWord(song.Perspective));
        }

        Notes(json, SongKeys.Notes, song.Notes);
        json.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter json, Track track)
    {
        if (track.Punched.Any)
        {
            json.WriteStartArray(TrackKeys.Files.Key);
            foreach (var file in track.Punched.Files)
            {
                json.WriteStringValue(file);
            }

            json.WriteEndArray();
        }
        else
        {
            json.WriteString(TrackKeys.File.Key, track.File);
        }

        if (track.Channel is { } channel)
        {
            Write(json, channel);
        }

        json.WriteNumber(TrackKeys.Level.Key, track.LevelDb);
        Write(json, track.IsInverted);
        Write(json, track.Delay);
        if (track.LatencyMs > 0)
        {
            json.WriteNumber(TrackKeys.Latency.Key, track.LatencyMs);
        }

        json.WriteBoolean(TrackKeys.Convert.Key, track.Convert);
        if (track.At is { } at)
        {
            json.WriteStartArray(TrackKeys.At.Key);
            json.WriteNumberValue(at.XM);
            json.WriteNumberValue(at.YM);
            json.WriteNumberValue(at.ZM);
            json.WriteEndArray();
        }

        Notes(json, TrackKeys.Notes, track.Notes);
    }

    private static void Write(Utf8JsonWriter json, TrackChannel channel)
    {
        if (channel.Name is { } name)
        {
            json.WriteString(TrackKeys.Channel.Key, name);
        }
        else
        {
            json.WriteNumber(TrackKeys.Channel.Key, channel.Number);
        }
    }

    private static void Write(Utf8JsonWriter json, ImpulseFile impulse)
    {
        json.WriteString(ImpulseKeys.File.Key, impulse.File);
        json.WriteString(ImpulseKeys.Layout.Key, impulse.Layout switch
        {
            ImpulseLayout.Mono => ImpulseKeys.Mono,
            ImpulseLayout.Stereo => ImpulseKeys.Stereo,
            ImpulseLayout.TrueStereo => ImpulseKeys.TrueStereo,
            _ => ImpulseKeys.Auto,
        });
        Notes(json, ImpulseKeys.Licence, impulse.Licence);
        if (impulse.MayBePassedOn)
        {
            json.WriteBoolean(ImpulseKeys.PassOn.Key, true);
        }
    }

    private static void Write(Utf8JsonWriter json, Bus bus)
    {
        Named(json, BusKeys.From, InOrder(bus.Feeds, bus.OffFeeds), f => f.Item.Source, Write);
        json.WriteString(BusKeys.Channels.Key, bus.Channels switch
        {
            1 => BusKeys.Mono,
            2 => BusKeys.Stereo,
            _ => BusKeys.Auto,
        });
        List(json, BusKeys.Through, InOrder(bus.Stages, bus.OffStages), Write);
    }

    private static void Write(Utf8JsonWriter json, (Feed Item, bool IsOff) entry)
    {
        var feed = entry.Item;
        json.WriteNumber(FeedKeys.Level.Key, feed.LevelDb);
        if (feed.PanPct is { } pan)
        {
            json.WriteNumber(FeedKeys.Pan.Key, pan);
        }

        Write(json, feed.IsInverted);
        Write(json, feed.Delay);
        List(json, FeedKeys.Ride, feed.Rides, Write);
        Off(json, FeedKeys.Off, entry.IsOff);
    }

    private static void Write(Utf8JsonWriter json, Ride ride)
    {
        json.WriteNumber((ride.InBars ? RideKeys.FromBar : RideKeys.FromSeconds).Key, ride.From);
        json.WriteNumber((ride.InBars ? RideKeys.ToBar : RideKeys.ToSeconds).Key, ride.To);
        json.WriteNumber(RideKeys.Db.Key, ride.Db);
        json.WriteNumber(RideKeys.Fade.Key, ride.FadeMs);
    }

    private static void Write(Utf8JsonWriter json, bool isInverted) =>
        json.WriteString(PolarityKeys.Polarity.Key, isInverted ? PolarityKeys.Inverted : PolarityKeys.Normal);

    private static void Write(Utf8JsonWriter json, PathDelay delay)
    {
        json.WriteNumber((DelayKeys.All.FirstOrDefault(k => k.Unit == delay.Unit) ?? DelayKeys.Frames).Key, delay.Amount);
        if (delay.IsExact)
        {
            json.WriteBoolean(DelayKeys.Exact.Key, true);
        }
    }

    private static void Write(Utf8JsonWriter json, Print print)
    {
        json.WriteNumber(PrintKeys.Number.Key, print.Number);
        json.WriteString(PrintKeys.Name.Key, print.Name);
        json.WriteString(PrintKeys.Bus.Key, print.Bus);
        json.WriteNumber(PrintKeys.Level.Key, print.LevelDb);
        json.WriteBoolean(PrintKeys.Optional.Key, print.IsOptional);
        Notes(json, PrintKeys.Notes, print.Notes);
        if (print.Keep != PrintKeep.Unsaid)
        {
            json.WriteString(PrintKeys.Keep.Key, KeepWord(print.Keep));
        }
    }

    /// <summary>The word a chain uses.</summary>
    internal static string KeepWord(PrintKeep keep) => keep switch
    {
        PrintKeep.Must => PrintKeys.Must,
        PrintKeep.Nice => PrintKeys.Nice,
        PrintKeep.FirstOut => PrintKeys.FirstOut,
        _ => PrintKeys.Unsaid,
    };

    /// <summary>The word a chain uses.</summary>
    internal static string PerspectiveWord(Perspective perspective) => perspective switch
    {
        Perspective.Drummer => SongKeys.Drummer,
        Perspective.Audience => SongKeys.Audience,
        _ => SongKeys.Unsaid,
    };

    private static void Notes(Utf8JsonWriter json, Parameter parameter, string? notes)
    {
        if (notes is not null)
        {
            json.WriteString(parameter.Key, notes);
        }
    }

    private static void Write(Utf8JsonWriter json, Acceptance accepted)
    {
        json.WriteString(AcceptedKeys.Rule.Key, accepted.Rule);
        if (accepted.Track is { } track)
        {
            json.WriteString(AcceptedKeys.Track.Key, track);
        }

        json.WriteString(AcceptedKeys.Why.Key, accepted.Why);
        if (accepted.UpTo is { } most)
        {
            json.WriteNumber(AcceptedKeys.UpTo.Key, most);
        }
    }

    private static void Write(Utf8JsonWriter json, (Stage Item, bool IsOff) entry)
    {
        var stage = entry.Item;
        json.WriteStartObject(stage.Definition.Key);
        json.WriteNumber(StageKeys.Revision.Key, stage.Definition.Revision);
        if (stage.Key is { } key)
        {
            json.WriteString(StageKeys.Key.Key, key);
        }

        Off(json, StageKeys.Off, entry.IsOff);
        ParameterForms.Write(json, stage.Definition.Parameters, stage.Settings);
        json.WriteEndObject();
    }

    // Left out where it is as it always was: the hashes of older tickets stay right.
    private static void Off(Utf8JsonWriter json, Parameter parameter, bool isOff)
    {
        if (isOff)
        {
            json.WriteBoolean(parameter.Key, true);
        }
    }

    // What is off stands where the file has it.
    private static IEnumerable<(T Item, bool IsOff)> InOrder<T>(IReadOnlyList<T> heard, IReadOnlyList<TurnedOff<T>> off)
    {
        for (var n = 0; n <= heard.Count; n++)
        {
            foreach (var here in off.Where(o => Math.Min(o.After, heard.Count) == n))
            {
                yield return (here.What, true);
            }

            if (n < heard.Count)
            {
                yield return (heard[n], false);
            }
        }
    }

    private static void Named<T>(Utf8JsonWriter json, Parameter parameter, IEnumerable<T> entries, Func<T, string> name, Action<Utf8JsonWriter, T> write)
    {
        json.WriteStartObject(parameter.Key);
        foreach (var entry in entries)
        {
            json.WriteStartObject(name(entry));
            write(json, entry);
            json.WriteEndObject();
        }

        json.WriteEndObject();
    }

    private static void List<T>(Utf8JsonWriter json, Parameter parameter, IEnumerable<T> items, Action<Utf8JsonWriter, T> write)
    {
        json.WriteStartArray(parameter.Key);
        foreach (var item in items)
        {
            json.WriteStartObject();
            write(json, item);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }
}
