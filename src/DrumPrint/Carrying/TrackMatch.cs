using DrumPrint.Beginning;
using DrumPrint.Chains;
using DrumPrint.Language;
using DrumPrint.Listening;

namespace DrumPrint.Carrying;

/// <summary>The file of the new session that is a track of the old one.</summary>
/// <param name="Track">The track.</param>
/// <param name="File">Its file; null where none was found.</param>
/// <param name="Why">What says so, or why none was found.</param>
internal sealed record TrackMatch(Track Track, RawFile? File, string Why)
{
    /// <summary>Finds the file of every track: by the same file name; then by what the names of both say; then by the track's own name. What is
    /// not clear is left out.</summary>
    /// <param name="tracks">Tracks of the old chain.</param>
    /// <param name="files">Files of the new session.</param>
    public static IReadOnlyList<TrackMatch> Of(IReadOnlyList<Track> tracks, IReadOnlyList<RawFile> files)
    {
        var found = new Dictionary<Track, (RawFile File, string Why)>();
        Pair(found, tracks, files, t => NameOf(t), f => NameOf(f), "the same name");
        Pair(found, tracks, files, t => Said(MicrophoneName.Of(t.File)), f => Said(f.Name), "its name says the same microphone");
        Pair(found, tracks, files, t => Said(MicrophoneName.Of(t.Name)), f => Said(f.Name), "its name says what the track is called");
        return [.. tracks.Select(t => found.TryGetValue(t, out var match) ? new TrackMatch(t, match.File, match.Why) : new TrackMatch(t, null, Missing(t, files)))];
    }

    // Only where one track and one file have it.
    private static void Pair(
        Dictionary<Track, (RawFile File, string Why)> found, IReadOnlyList<Track> tracks, IReadOnlyList<RawFile> files, Func<Track, string?> ofTrack, Func<RawFile, string?> ofFile, string why)
    {
        var free = files.Where(f => found.Values.All(v => v.File != f)).Select(f => (File: f, Key: ofFile(f))).Where(f => f.Key is not null).ToLookup(f => f.Key, f => f.File);
        foreach (var group in tracks.Where(t => !found.ContainsKey(t)).Select(t => (Track: t, Key: ofTrack(t))).Where(t => t.Key is not null).GroupBy(t => t.Key, t => t.Track).ToList())
        {
            if (group.Count() == 1 && free[group.Key].Count() == 1)
            {
                found.Add(group.First(), (free[group.Key].First(), why));
            }
        }
    }

    private static string NameOf(Track track) => $"{Path.GetFileNameWithoutExtension(track.File).ToUpperInvariant()}#{track.Channel?.ToString()}";

    private static string NameOf(RawFile file) => $"{Path.GetFileNameWithoutExtension(file.Path).ToUpperInvariant()}#{(file.Channel is { } channel ? new TrackChannel(channel, null).ToString() : "")}";

    private static string? Said(MicrophoneName name) => name.Role is Role.Unknown or Role.Other ? null : $"{name.Role} {name.Standing} {name.Side} {name.Number}";

    private static string Missing(Track track, IReadOnlyList<RawFile> files) => Nearest.Word(Path.GetFileName(track.File), files.Select(f => Path.GetFileName(f.Path))) is { } near
        ? $"no file is surely it; {Show.Name(near)} has the nearest name"
        : "no file is surely it";
}
