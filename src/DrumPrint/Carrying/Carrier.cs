using System.Text;
using DrumPrint.Beginning;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Files;
using DrumPrint.Language;

namespace DrumPrint.Carrying;

/// <summary>Carries a chain to another session: its recipe and its microphones, with the new takes.</summary>
public static class Carrier
{
    /// <summary>Writes the chain of the new session.</summary>
    /// <param name="chainPath">The old chain; it stays as it is.</param>
    /// <param name="folder">Folder of the new raw files, or around theirs.</param>
    /// <param name="reading">Which files a chain may name; within the session when left out.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancel">Stops between blocks; nothing is written then.</param>
    /// <exception cref="ChainException">The old chain has mistakes.</exception>
    /// <exception cref="UsageException">The folder holds a chain already, or no sound file, or none of them is a track of the old chain.</exception>
    public static CarriedSession Carry(string chainPath, string folder, ReadPolicy? reading, Action<string, double> progress, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(chainPath);
        ArgumentNullException.ThrowIfNull(folder);
        reading ??= ReadPolicy.Default;
        var old = ChainReader.ReadSettings(chainPath, reading);
        if (Directory.Exists(folder) && Directory.GetFiles(folder, "*.chain.json").FirstOrDefault() is { } there)
        {
            throw new UsageException($"{there} is there already, and carry replaces nothing. Move it away, or name the folder of another song.");
        }

        var raw = RawFolder.Open(folder, reading, new CalledFiles([]));
        var matches = TrackMatch.Of(old.Tracks, raw.Files);
        if (matches.All(m => m.File is null))
        {
            throw new UsageException($"{folder}: none of the {Words.Count(raw.Files.Count, "file")} is surely a track of {chainPath}. Name them as the old ones, or begin a chain: drumprint begin {Show.Name(folder)}");
        }

        var title = Path.GetFileName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder)));
        var text = new CarriedText(SourceFile.Read(chainPath), old);
        text.OldSong();
        text.Song(title, Naming.Code(title), raw.RateHz, raw.Tempo);
        text.Paths(file => Path.IsPathRooted(file) ? file : Path.GetRelativePath(Path.GetFullPath(folder), Path.GetFullPath(Path.Combine(old.Folder, file))).Replace('\\', '/'));
        foreach (var match in matches)
        {
            if (match.File is { } file)
            {
                text.Track(match.Track, file);
            }
            else
            {
                text.Missing(match.Track);
            }
        }

        var path = Path.Combine(folder, Naming.Code(title) + ".chain.json");
        var chain = ChainReader.Parse(text.Text, path);
        var found = matches.Where(m => m.File is not null).Select(m => m.Track.Name).ToHashSet(StringComparer.Ordinal);
        var (moved, problem) = MovedMicrophones.Of(old, chain, found, reading, progress, cancel);
        cancel.ThrowIfCancellationRequested();
        StagedFile.Write(path, Encoding.UTF8.GetString(text.Text), replaces: false);
        return new CarriedSession(
            path,
            [.. matches.Select(m => new CarriedTrack(m.Track.Name, m.Track.FileWords, m.File?.Label, m.Why))],
            [.. raw.Files.Where(f => matches.All(m => m.File != f)).Select(f => f.Label), .. raw.LeftOut.Select(l => $"{l.File} ({l.Why})")],
            moved,
            text.LeftBehind,
            [.. new[] { problem }.OfType<string>(), .. raw.Notes.Where(n => !n.Contains("is delayed by that", StringComparison.Ordinal)), .. Late(raw, matches), .. Outside(chain, reading)]);
    }

    // The delays are the old ones: they line up microphones, and not files that begin at another time.
    private static IEnumerable<string> Late(RawFolder raw, IReadOnlyList<TrackMatch> matches) => matches
        .Where(m => m.File is { StartFrame: > 0 })
        .Select(m => $"{m.File!.Path} begins {Words.Number(1000.0 * m.File.StartFrame / raw.RateHz, 2)} ms after the first file by its time stamp; its delay is that of the old session.");

    private static IEnumerable<string> Outside(Chain chain, ReadPolicy reading)
    {
        var reach = new SessionReach(reading, chain.Folder);
        return chain.Impulses.Where(i => reach.Outside(i.File) is not null).Select(i => $"The impulse {i.Name} lies outside the new session, in {Show.Name(i.File)}: copy it in, and name it there in the chain.");
    }
}
