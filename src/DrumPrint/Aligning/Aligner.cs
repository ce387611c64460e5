using DrumPrint.Chains;
using DrumPrint.Dsp.Alignment;
using DrumPrint.Files;
using DrumPrint.Language;
using DrumPrint.Listening;
using DrumPrint.Session;

namespace DrumPrint.Aligning;

/// <summary>Tells how the microphones of a session lie against each other.</summary>
public static class Aligner
{
    /// <summary>Looks at every drum of a chain: its microphones among each other, and against the overheads.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="with">Tracks of rooms that are looked at too; all others are left in the room.</param>
    /// <param name="reading">Which files the chain may name.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancel">Stops between blocks.</param>
    /// <exception cref="UsageException">There is no such track.</exception>
    /// <exception cref="InputException">Files are missing or cannot be read.</exception>
    public static AlignmentReport Look(Chain chain, IReadOnlyList<string> with, ReadPolicy reading, Action<string, double> progress, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(chain);
        ArgumentNullException.ThrowIfNull(with);
        foreach (var name in with)
        {
            Track(chain, name);
        }

        var inputs = SessionInputs.Open(chain with { Impulses = [] }, reading);
        List<(Track Track, Microphone Microphone)> heard = [.. chain.Tracks.SelectMany(t => Microphone.Of(t.Name, inputs.Tracks[t.Name]).Select(m => (t, m)))];
        var take = Take.Hear([.. heard.Select(h => h.Microphone)], chain.Song.RateHz, progress, cancel);
        MicrophoneName[] names = [.. heard.Select(h => Name(h.Track, h.Microphone))];
        var places = Kit.Sort(take, names, Traits.Of(take));
        var pairs = PairListener.Listen(take, places, m => places[m].Role == Role.Overhead || with.Contains(heard[m].Track.Name), progress, cancel);
        List<string> notes =
        [
            .. places.Zip(heard).Where(p => p.First.Role == Role.Unknown).Select(p => $"{p.Second.Microphone.Name} is left out: {p.First.Why}."),
            .. Rooms(places, [.. heard.Select(h => h.Track.Name)], with),
        ];
        return new AlignmentReport(chain.Path, chain.Song.RateHz, [.. pairs.Select(p => Row(chain, p, heard[p.Reference], heard[p.Other]))], notes);
    }

    /// <summary>The track a chain calls so.</summary>
    /// <exception cref="UsageException">There is none.</exception>
    internal static Track Track(Chain chain, string name) => chain.Tracks.FirstOrDefault(t => t.Name == name)
        ?? throw new UsageException($"{chain.Path} has no track '{Show.Name(name)}'.{(Nearest.Word(name, chain.Tracks.Select(t => t.Name)) is { } near ? $" Did you mean '{near}'?" : "")}");

    private static IEnumerable<string> Rooms(Place[] places, string[] tracks, IReadOnlyList<string> with)
    {
        string[] rooms = [.. places.Zip(tracks).Where(p => p.First.Role is Role.Room or Role.Kit && !with.Contains(p.Second)).Select(p => p.Second).Distinct()];
        return rooms.Length == 0 ? [] : [$"Rooms stay where they are and were not looked at: {Show.List(rooms)}. To look at one: --with \"{rooms[0]}\"."];
    }

    // The chain's own word first, then the file's.
    private static MicrophoneName Name(Track track, Microphone microphone)
    {
        var side = microphone.Input.Channels == 1 ? Side.None : microphone.Channel == 0 ? Side.Left : Side.Right;
        var (word, file) = (MicrophoneName.Of(track.Name), MicrophoneName.Of(track.File));
        var name = word.Role != Role.Unknown ? word with { Standing = word.Standing != Standing.Unknown ? word.Standing : file.Standing } : file;
        return side == Side.None ? name : name with { Side = side };
    }

    private static AlignmentRow Row(Chain chain, HeardPair pair, (Track Track, Microphone Microphone) reference, (Track Track, Microphone Microphone) other)
    {
        var (here, there) = (DelayMs(chain, reference.Track), DelayMs(chain, other.Track));
        var found = pair.Found;
        var polarity = pair.Kind == MicrophoneKind.SameDrum ? found.PolarityAtDrum : found.Polarity;
        bool? opposite = polarity == PairPolarity.CannotBeTold ? null : (polarity == PairPolarity.Opposite) != (reference.Track.IsInverted != other.Track.IsInverted);
        return new AlignmentRow(pair.Drum, reference.Microphone.Name, other.Microphone.Name, pair.Kind, found, found.DelayMs + there - here, opposite)
        {
            ReferenceTrack = reference.Track.Name,
            Track = other.Track.Name,
        };
    }

    private static double DelayMs(Chain chain, Track track)
    {
        var (whole, part) = track.Wait(chain.Song.RateHz, chain.Song.TemperatureC).Parts(chain.Song.RateHz, chain.Song.TemperatureC);
        return 1000 * (whole + part) / chain.Song.RateHz;
    }
}
