using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Files;
using DrumPrint.Language;
using DrumPrint.Listening;
using DrumPrint.Session;

namespace DrumPrint.Beginning;

/// <summary>What lies in the folder of a session that has no chain yet.</summary>
internal sealed class RawFolder
{
    private const long MostStartFrames = 384000; // what a delay of the chain holds
    private const int MostChannels = 64;
    private static readonly string[] TempoFiles = ["tempo.json", "raw/tempo.json"];
    private static readonly string[] SoundFolders = ["", "raw"];
    private static readonly string[] ImpulseFolders = ["ir", "irs", "impulse", "impulses", "spaces"];
    private static readonly string[] OtherFolders = ["prints", "print", "out", "bounces", "mixes"];

    private RawFolder(int rateHz, IReadOnlyList<RawFile> files, IReadOnlyList<(string Path, int Channels)> impulses, string? tempo, IReadOnlyList<LeftOut> leftOut, IReadOnlyList<string> notes)
    {
        (RateHz, Files, Impulses, Tempo, LeftOut, Notes) = (rateHz, files, impulses, tempo, leftOut, notes);
    }

    public int RateHz { get; }

    public IReadOnlyList<RawFile> Files { get; }

    public IReadOnlyList<(string Path, int Channels)> Impulses { get; }

    public string? Tempo { get; }

    public IReadOnlyList<LeftOut> LeftOut { get; }

    public IReadOnlyList<string> Notes { get; }

    /// <summary>Looks at a folder and the folders in it.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="reading">Where links in it may lead.</param>
    /// <param name="called">What a person says that files are.</param>
    /// <exception cref="UsageException">There is no sound file in it, or somebody says something of a file that is not there.</exception>
    public static RawFolder Open(string folder, ReadPolicy reading, CalledFiles called)
    {
        if (!Directory.Exists(folder))
        {
            throw new UsageException($"{folder}: there is no such folder. begin wants the folder of the raw files.");
        }

        var (leftOut, notes) = (new List<LeftOut>(), new List<string>());
        var found = new List<FoundSound>();
        var impulses = new List<(string, int)>();
        var reach = new SessionReach(reading, folder);
        foreach (var (path, isImpulse) in Sounds(folder))
        {
            if (reach.LeadsOut(path) is { } why)
            {
                leftOut.Add(new LeftOut(path, why));
                continue;
            }

            try
            {
                using var reader = AudioReader.Open(Path.Combine(folder, path), AudioHashes.None);
                if (isImpulse)
                {
                    impulses.Add((path, reader.Info.Channels));
                }
                else if (reader.Info.Channels > MostChannels)
                {
                    leftOut.Add(new LeftOut(path, FormattableString.Invariant($"has {reader.Info.Channels} channels; up to {MostChannels} are listened to")));
                }
                else
                {
                    found.Add(new FoundSound(path, reader.Info, reader.Info.Channels > 2 ? ChannelNames.Of(reader) : []));
                }
            }
            catch (AudioFileException e)
            {
                leftOut.Add(new LeftOut(path, "cannot be read: " + e.Problem));
            }
        }

        if (found.Count == 0)
        {
            throw new UsageException(leftOut.Count == 0
                ? $"{folder}: there is no WAV, AIFF or FLAC file that can be read in this folder or the folders in it."
                : $"{folder}: there is no WAV, AIFF or FLAC file that can be read in this folder or the folders in it. {leftOut[0].File} {leftOut[0].Why}.");
        }

        var rate = found.GroupBy(f => f.Info.SampleRate).OrderByDescending(g => g.Count()).ThenByDescending(g => g.Key).First().Key;
        var files = Started(folder, found, rate, called, leftOut, notes);
        called.RequireAll(files);
        return new RawFolder(rate, OneTake(files, leftOut), impulses, TempoMap(folder, reach), leftOut, notes);
    }

    private static IEnumerable<(string Path, bool IsImpulse)> Sounds(string folder)
    {
        foreach (var file in Names(folder))
        {
            yield return (file, false);
        }

        foreach (var inner in Directory.GetDirectories(folder).Select(d => Path.GetFileName(d)).Where(d => !d.StartsWith('.')).Order(StringComparer.Ordinal))
        {
            if (OtherFolders.Contains(inner, StringComparer.OrdinalIgnoreCase))
            {
                continue;
            }

            foreach (var file in Names(Path.Combine(folder, inner)))
            {
                yield return ($"{inner}/{file}", ImpulseFolders.Contains(inner, StringComparer.OrdinalIgnoreCase));
            }
        }
    }

    private static IEnumerable<string> Names(string folder) =>
        Directory.GetFiles(folder).Where(AudioFileName.IsLikely).Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal);

    // Broadcast files say when they begin; the earliest is the start of the take.
    private static List<RawFile> Started(string folder, List<FoundSound> found, int rate, CalledFiles called, List<LeftOut> leftOut, List<string> notes)
    {
        long Stamp(AudioFileInfo info) => (long)Math.Round((double)(info.Broadcast?.TimeReference ?? 0) * rate / info.SampleRate);
        var stamped = found.Where(f => f.Info.Broadcast is { TimeReference: > 0 }).Select(f => Stamp(f.Info)).ToList();
        var first = stamped.Count == found.Count ? stamped.Min() : 0;
        if (stamped.Count > 0 && stamped.Count < found.Count)
        {
            notes.Add(FormattableString.Invariant($"{stamped.Count} of {found.Count} files say when they begin and the others do not, so all are taken to begin together."));
        }

        var files = new List<RawFile>();
        var punched = PunchedTakes.Among(found, path => called.Of(path, null) ?? MicrophoneName.Of(path));
        foreach (var (path, info, channels) in found)
        {
            var pieces = punched.FirstOrDefault(p => p.Any(f => f.Path == path)) ?? [];
            if (pieces.Skip(1).Any(f => f.Path == path))
            {
                continue;
            }

            var start = stamped.Count == found.Count ? Stamp(info) - first : 0;
            if (start > MostStartFrames)
            {
                leftOut.Add(new LeftOut(path, $"begins {Words.Number((double)start / rate, 2)} s after the first file by its time stamp, more than a delay can hold"));
                continue;
            }

            if (start > 0)
            {
                notes.Add($"{path} begins {Words.Number(1000.0 * start / rate, 2)} ms after the first file by its time stamp, and is delayed by that.");
            }

            var track = new Track(path, path, 0, false, PathDelay.None, info.SampleRate != rate, 1);
            var input = new TrackInput(track, Path.Combine(folder, path), info, rate);
            if (pieces.Count > 0)
            {
                notes.Add($"{Show.Some([.. pieces.Select(p => p.Path)])} are one take of one microphone, punched in: each begins where its time stamp says.");
                var splice = Splice.Of([.. pieces.Select(p => (p.Path, p.Info))]);
                files.Add(new RawFile(path, called.Of(path, null) ?? MicrophoneName.Of(path), input with { Info = splice.Info, Splice = splice }, start) { Punched = [.. pieces.Select(p => p.Path)] });
                continue;
            }

            if (channels.Count == 0)
            {
                files.Add(new RawFile(path, called.Of(path, null) ?? MicrophoneName.Of(path), input, start));
                continue;
            }

            notes.Add($"{path} holds {Words.Count(channels.Count, "channel")}; each is taken as a microphone{(channels.Any(c => c.Length > 0) ? ", by the name the file gives it" : ", and the file gives them no names")}.");
            files.AddRange(channels.Select((name, c) => new RawFile(path, called.Of(path, c + 1) ?? MicrophoneName.Of(name.Replace('/', ' ').Replace('.', ' ')), input, start) { Channel = c + 1, ChannelName = name }));
        }

        return files;
    }

    // One MIDI file beside the sounds is the song's; of several nobody knows which.
    private static IEnumerable<string> MidiFiles(string folder)
    {
        string[] found = [.. SoundFolders.Select(f => Path.Combine(folder, f)).Where(Directory.Exists).SelectMany(Directory.GetFiles)
            .Where(f => Path.GetExtension(f).ToUpperInvariant() is ".MID" or ".MIDI" && !Path.GetFileName(f).StartsWith('.'))];
        return found.Length == 1 ? [Path.GetRelativePath(folder, found[0]).Replace('\\', '/')] : [];
    }

    // Several takes of one microphone: which one is meant, nobody but a person knows.
    private static List<RawFile> OneTake(List<RawFile> files, List<LeftOut> leftOut)
    {
        var kept = new List<RawFile>();
        foreach (var group in files.GroupBy(f => (f.Name.Stem, f.Name.Role, f.Name.Standing, f.Name.Side, f.Name.Number)))
        {
            List<RawFile> same = [.. group];
            // A file of many channels holds each microphone once; one of the same name in another is another take.
            var isAgain = same.Any(f => f.Name.Take > 0 && f.Punched.Count == 0) || (same.All(f => f.Channel is not null) && same.DistinctBy(f => f.Path).Count() == same.Count);
            if (same.Count > 1 && group.Key.Role != Role.Unknown && isAgain)
            {
                leftOut.AddRange(same.Select(f => new LeftOut(f.Label, $"one of {same.Count} takes of one microphone; put the one you want into the chain")));
            }
            else
            {
                kept.AddRange(same);
            }
        }

        return [.. files.Where(kept.Contains)];
    }

    private static string? TempoMap(string folder, SessionReach reach)
    {
        foreach (var name in TempoFiles.Concat(MidiFiles(folder)))
        {
            var path = Path.Combine(folder, name);
            try
            {
                if (reach.Outside(name) is null && File.Exists(path))
                {
                    TempoReader.Read(path, name);
                    return name;
                }
            }
            catch (Exception e) when (e is ChainException or UnreadableFileException)
            {
                continue;
            }
        }

        return null;
    }
}
