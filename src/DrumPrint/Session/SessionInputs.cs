using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Resampling;
using DrumPrint.Files;

namespace DrumPrint.Session;

/// <summary>Every raw track and impulse of a chain, found and checked; impulses are in memory, at the session's rate.</summary>
internal sealed class SessionInputs
{
    private SessionInputs(IReadOnlyDictionary<string, TrackInput> tracks, IReadOnlyDictionary<string, Impulse> impulses, IReadOnlyList<ImpulseInput> impulseFiles)
    {
        Tracks = tracks;
        Impulses = impulses;
        ImpulseFiles = impulseFiles;
    }

    public IReadOnlyDictionary<string, TrackInput> Tracks { get; }

    public IReadOnlyDictionary<string, Impulse> Impulses { get; }

    public IReadOnlyList<ImpulseInput> ImpulseFiles { get; }

    /// <summary>Opens every file of a chain.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="reading">Which files the chain may name.</param>
    /// <param name="places">Where files are that are not where the chain says, by the chain's path; these may lie anywhere.</param>
    /// <param name="starts">Where files of one track begin in it, where that was taken down; else their time stamps say it.</param>
    /// <exception cref="InputException">Files are missing or do not fit, or may not be read; all of them are named.</exception>
    public static SessionInputs Open(Chain chain, ReadPolicy reading, IReadOnlyDictionary<string, string>? places = null, IReadOnlyDictionary<(string Track, string File), long>? starts = null)
    {
        string Place(string file) => places?.GetValueOrDefault(file) ?? System.IO.Path.Combine(chain.Folder, file);

        // A file that another track or impulse names is not the one that was meant.
        var named = Named(chain).Select(n => System.IO.Path.GetFullPath(Place(n.File))).ToHashSet(StringComparer.Ordinal);
        var asNamed = Named(chain).Where(n => places?.ContainsKey(n.File) != true).ToList();
        var outside = OutsideFolder.Among(new SessionReach(reading, chain.Folder), asNamed);
        var skipped = outside.SelectMany(f => f.Files).ToHashSet();
        var missingFolders = MissingFolder.Among(chain.Folder, asNamed.Where(n => !skipped.Contains(n)));
        skipped.UnionWith(missingFolders.SelectMany(f => f.Files));
        var unused = new UnusedFiles(named.Contains);
        var problems = new List<string>();
        var tracks = new Dictionary<string, TrackInput>(StringComparer.Ordinal);
        var rates = new List<int>();
        foreach (var track in chain.Tracks.Where(t => !Named(t).Any(skipped.Contains)))
        {
            Try(problems, chain.Path, track.Line, $"track '{track.Name}'", () => tracks.Add(track.Name, OpenTrack(chain, track, [.. track.Files.Select(f => Found(f, Place(f), named, unused))], starts, rates)));
        }

        // The session's rate is wrong then, and that is one mistake.
        if (rates.Count > 1 && rates.Count == chain.Tracks.Count)
        {
            problems = [OtherRates(chain, rates)];
        }

        var impulses = new Dictionary<string, Impulse>(StringComparer.Ordinal);
        var files = new List<ImpulseInput>();
        foreach (var file in chain.Impulses.Where(i => !skipped.Contains(Named(i))))
        {
            Try(problems, chain.FileOf($"impulses.{file.Name}"), file.Line, $"impulse '{file.Name}'", () =>
            {
                var (impulse, input) = OpenImpulse(chain, file, Found(file.File, Place(file.File), named, unused));
                impulses.Add(file.Name, impulse);
                files.Add(input);
            });
        }

        problems = [.. outside.Select(f => $"{In(chain, f.Files[0])}:{f.Files[0].Line}: {f}"), .. missingFolders.Select(f => $"{In(chain, f.Files[0])}:{f.Files[0].Line}: {f}"), .. problems, .. unused.Sentences().Select(s => $"{chain.Path}: {s}")];
        return problems.Count > 0 ? throw new InputException(problems) : new SessionInputs(tracks, impulses, files);
    }

    private static IEnumerable<NamedFile> Named(Chain chain) => [.. chain.Tracks.SelectMany(Named), .. chain.Impulses.Select(Named)];

    private static IEnumerable<NamedFile> Named(Track track) => track.Files.Select(f => new NamedFile("track", track.Name, f, track.Line));

    private static string In(Chain chain, NamedFile file) => file.Kind == "impulse" ? chain.FileOf($"impulses.{file.Name}") : chain.Path;

    private static NamedFile Named(ImpulseFile impulse) => new("impulse", impulse.Name, impulse.File, impulse.Line);

    private static string Found(string file, string path, HashSet<string> named, UnusedFiles unused)
    {
        if (File.Exists(path) || Directory.Exists(path))
        {
            return path;
        }

        if (NearbyFile.WithOtherAccents(path) is { } same)
        {
            return same;
        }

        unused.Add(file, path);
        throw new AudioFileException(file, "there is no such file." + NearbyFile.Hint(path, named.Contains));
    }

    private static void Try(List<string> problems, string path, int line, string what, Action open)
    {
        try
        {
            open();
        }
        catch (AudioFileException e)
        {
            problems.Add($"{path}:{line}: {what}: {e.Message}");
        }
    }

    private static TrackInput OpenTrack(Chain chain, Track track, IReadOnlyList<string> paths, IReadOnlyDictionary<(string Track, string File), long>? starts, List<int> otherRates)
    {
        // One whose place was not taken down was not taken down at all; then the stamps say it.
        var places = starts is not null && track.Files.All(f => starts.ContainsKey((track.Name, f))) ? track.Files.Select(f => starts[(track.Name, f)]).ToList() : null;
        var splice = track.Punched.Any ? Splice.Read([.. track.Files.Zip(paths)], places) : null;
        using var reader = splice?.Open(AudioHashes.None) ?? AudioReader.Open(paths[0], AudioHashes.None);
        var info = reader.Info;
        var channel = ChannelChoice.Of(track, reader);

        if (info.SampleRate != chain.Song.RateHz && !track.Convert)
        {
            otherRates.Add(info.SampleRate);
            throw new AudioFileException(
                track.File,
                $"is at {info.SampleRate} Hz, the session at {chain.Song.RateHz} Hz. Bring the file at {chain.Song.RateHz} Hz, or add \"convert\": true to this track to have it resampled.");
        }

        CheckRate(track.File, info);
        return new TrackInput(track, paths[0], info, chain.Song.RateHz) { Channel = channel, Splice = splice };
    }

    private static string OtherRates(Chain chain, List<int> rates)
    {
        var (least, most) = (rates.Min(), rates.Max());
        var found = least == most ? $"every one of the {rates.Count} tracks is at {least} Hz" : $"none of the {rates.Count} tracks is at that rate, but at {least} to {most} Hz";
        var advice = least == most ? $"Set rate_hz to {least}, or bring" : "Bring";
        return $"{chain.Path}: song.rate_hz is {chain.Song.RateHz}, but {found}. {advice} the files at {chain.Song.RateHz} Hz, or add \"convert\": true to each track to have it resampled.";
    }

    private static void CheckRate(string file, AudioFileInfo info)
    {
        if (info.SampleRate is < RateConverter.LowestHz or > RateConverter.HighestHz)
        {
            throw new AudioFileException(file, $"is at {info.SampleRate} Hz; files from {RateConverter.LowestHz} to {RateConverter.HighestHz} Hz can be used.");
        }
    }

    private static (Impulse Impulse, ImpulseInput Input) OpenImpulse(Chain chain, ImpulseFile file, string path)
    {
        using var reader = AudioReader.Open(path);
        var info = reader.Info;
        var layout = file.Layout ?? info.Channels switch
        {
            1 => ImpulseLayout.Mono,
            2 => ImpulseLayout.Stereo,
            4 => ImpulseLayout.TrueStereo,
            _ => throw new AudioFileException(file.File, $"has {info.Channels} channels; an impulse has 1 (mono), 2 (stereo) or 4 (true stereo: LL, LR, RL, RR)."),
        };
        var needed = layout switch
        {
            ImpulseLayout.Mono => 1,
            ImpulseLayout.Stereo => 2,
            _ => 4,
        };
        if (info.Channels != needed)
        {
            throw new AudioFileException(file.File, $"has {info.Channels} channels; the layout named in the chain needs {needed}.");
        }

        CheckRate(file.File, info);
        SoundStretch? stretch = info.Frames > SoundStretch.MostS * (long)info.SampleRate ? SoundStretch.Of(chain, file.Name) ?? throw TooLong(file, info) : null;
        if (info.Frames == 0 || stretch is { Fits: false })
        {
            throw TooLong(file, info);
        }

        var from = Math.Min(info.Frames - 1, (stretch?.FromS ?? 0) * (long)info.SampleRate);
        var frames = (int)(Math.Min(info.Frames, (stretch?.ToS ?? int.MaxValue) * (long)info.SampleRate) - from);
        if (frames < 1)
        {
            (from, frames) = (info.Frames - 1, 1);
        }

        var channels = new double[info.Channels][];
        for (var channel = 0; channel < channels.Length; channel++)
        {
            channels[channel] = new double[frames];
        }

        // All of it counts for the hash.
        reader.Skip(from);
        reader.Read(new AudioBlock(channels, 0, frames));
        reader.Skip(info.Frames - from - frames);
        var impulse = ImpulseConversion.Convert(file.Name, layout, channels, info.SampleRate, chain.Song.RateHz);
        var ahead = (int)(from * chain.Song.RateHz / info.SampleRate);
        return (ahead == 0 ? impulse : impulse with { LeadFrames = impulse.LeadFrames - ahead }, new ImpulseInput(file, path, info, reader.AudioSha256) { Stretch = stretch });
    }

    private static AudioFileException TooLong(ImpulseFile file, AudioFileInfo info) => new(
        file.File,
        FormattableString.Invariant($"is {info.Frames} frames long ({(double)info.Frames / info.SampleRate:0.#} s); an impulse holds at least one frame and at most a minute. A 'layer' plays a stretch of a longer file: give it 'from_s' and 'to_s', at most a minute apart."));
}

/// <summary>An impulse file as it was read.</summary>
/// <param name="File">The chain's words.</param>
/// <param name="Path">Full path.</param>
/// <param name="Info">The file's header; its rate may differ from the session's.</param>
/// <param name="AudioSha256">Hash of its samples.</param>
internal sealed record ImpulseInput(ImpulseFile File, string Path, AudioFileInfo Info, string AudioSha256)
{
    /// <summary>What of it is in memory; null for all.</summary>
    public SoundStretch? Stretch { get; init; }
}
