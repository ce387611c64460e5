using DrumPrint.Audio;
using DrumPrint.Files;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Reprinting;

/// <summary>Finds raw files by the hash of their samples, whatever they are called now.</summary>
/// <remarks>First where the chain says, then through the folders given and those around the target. Only files whose header
/// fits are hashed.</remarks>
internal sealed class InputSearch(string targetFolder, ReprintOptions options, CancellationToken cancel)
{
    private const int NearDepth = 3;
    private const int MostAlike = 3;

    private readonly Dictionary<string, AudioFileInfo?> _headers = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> _hashes = new(StringComparer.Ordinal);

    // The chain lies beside the prints or one folder up, or wherever the user says the raw files are.
    private string[] Near => [targetFolder, Path.GetDirectoryName(targetFolder) ?? targetFolder];

    /// <summary>Finds every input.</summary>
    /// <exception cref="InputException">Some are nowhere to be found; all of them are named.</exception>
    public IReadOnlyList<FoundInput> Find(IReadOnlyList<RecordedInput> inputs)
    {
        var named = inputs.ToDictionary(i => i, Named);
        Hash(named.Values.OfType<string>());
        var lost = inputs.Where(i => named[i] is not { } path || _hashes[path] != i.AudioSha256).ToList();
        var elsewhere = lost.Count == 0 ? [] : Elsewhere(lost);

        var found = new List<FoundInput>();
        var missing = new List<RecordedInput>();
        foreach (var input in inputs)
        {
            if (!lost.Contains(input))
            {
                found.Add(Found(input, named[input]!, isChanged: false));
            }
            else if (elsewhere.TryGetValue(input.AudioSha256, out var path))
            {
                found.Add(Found(input, path, isChanged: false));
            }
            else if (named[input] is { } other)
            {
                found.Add(Found(input, other, isChanged: true));
            }
            else
            {
                missing.Add(input);
            }
        }

        if (missing.Count == 0)
        {
            return found;
        }

        var taken = found.Select(f => f.Path).ToHashSet(StringComparer.Ordinal);
        throw new InputException(
        [
            .. missing.Select(i => $"'{i.Name}' is missing: it was {i.File}, its sound has the hash {i.AudioSha256[..8]}….{Lookalike(i, taken, inputs.Select(j => j.AudioSha256).ToHashSet(StringComparer.Ordinal))}"),
            $"Looked in {string.Join(", ", options.RawFolders.Concat(Near))}. Say where the raw files are with --raw FOLDER.",
        ]);
    }

    private FoundInput Found(RecordedInput input, string path, bool isChanged) =>
        new(input, path, isChanged, IsElsewhere: !Near.Any(folder => Path.GetFullPath(Path.Combine(folder, input.File)) == path));

    // A file that was both renamed and changed has neither the name nor the hash; its format and length may still tell.
    // Neither a copy of another take nor a print is it.
    private string Lookalike(RecordedInput input, HashSet<string> taken, HashSet<string> takes)
    {
        var alike = _headers.Where(h => h.Value is { } info && input.Fits(info) && !taken.Contains(h.Key) && !IsTakeOrPrint(h.Key, takes)).Select(h => h.Key).Order(StringComparer.Ordinal).ToList();
        return alike.Count switch
        {
            0 => "",
            1 => $" {alike[0]} has its format and length but other sound: if that is the same take under a new name, its sound was changed. Find the take as it was; or give this file the old name, {input.File}, to hear what a print from it would be.",
            _ => FormattableString.Invariant($" {alike.Count} files have its format and length but other sound ({string.Join(", ", alike.Take(MostAlike))}{(alike.Count > MostAlike ? ", …" : "")}): if one of them is the same take under a new name, its sound was changed. Find the take as it was; or give that file the old name, {input.File}."),
        };
    }

    private bool IsTakeOrPrint(string path, HashSet<string> takes) =>
        (_hashes.TryGetValue(path, out var hash) && takes.Contains(hash)) || IsPrint(path);

    private static bool IsPrint(string path)
    {
        try
        {
            return PrintPart.Read(path) is not null;
        }
        catch (Exception e) when (e is TicketException or AudioFileException)
        {
            return e is TicketException; // a print, of a form this version cannot read
        }
    }

    /// <summary>The file where the chain says, if its header fits.</summary>
    private string? Named(RecordedInput input) => Near.Reverse()
        .Concat(options.RawFolders)
        .Where(folder => new SessionReach(options.Reading, folder).Outside(input.File) is null)
        .Select(folder => Path.GetFullPath(Path.Combine(folder, input.File)))
        .Concat(options.RawFolders.Select(folder => Path.GetFullPath(Path.Combine(folder, Path.GetFileName(input.File)))))
        .FirstOrDefault(path => Header(path) is { } info && input.Fits(info));

    private Dictionary<string, string> Elsewhere(List<RecordedInput> lost)
    {
        var wanted = lost.Select(i => i.AudioSha256).ToHashSet(StringComparer.Ordinal);
        var found = new Dictionary<string, string>(StringComparer.Ordinal);
        IEnumerable<IEnumerable<string>> places = [.. options.RawFolders.Select(f => Files(f, int.MaxValue, FileAttributes.None)), .. Near.Select(f => Files(f, NearDepth, FileAttributes.ReparsePoint))];
        foreach (var place in places)
        {
            var candidates = place.Where(p => Header(p) is { } info && lost.Any(i => i.Fits(info))).ToList();
            Hash(candidates);
            foreach (var path in candidates.Where(p => wanted.Contains(_hashes[p])))
            {
                found.TryAdd(_hashes[path], path);
            }

            if (found.Count == wanted.Count)
            {
                break;
            }
        }

        return found;
    }

    // Around a target links are passed over: whoever sent it may have laid them.
    private static IEnumerable<string> Files(string folder, int depth, FileAttributes skipped)
    {
        if (!Directory.Exists(folder))
        {
            throw new InputException([$"{folder}: there is no such folder."]);
        }

        var walk = new EnumerationOptions { RecurseSubdirectories = true, MaxRecursionDepth = depth, IgnoreInaccessible = true, AttributesToSkip = FileAttributes.Hidden | FileAttributes.System | skipped };
        return Directory.EnumerateFiles(Path.GetFullPath(folder), "*", walk)
            .Where(AudioFileName.IsLikely)
            .Order(StringComparer.Ordinal);
    }

    private AudioFileInfo? Header(string path)
    {
        if (!_headers.TryGetValue(path, out var info))
        {
            info = ReadHeader(path);
            _headers.Add(path, info);
        }

        return info;
    }

    private static AudioFileInfo? ReadHeader(string path)
    {
        if (!File.Exists(path))
        {
            return null;
        }

        try
        {
            using var reader = AudioReader.Open(path);
            return reader.Info;
        }
        catch (AudioFileException)
        {
            return null;
        }
    }

    private void Hash(IEnumerable<string> paths)
    {
        var threads = options.Threads ?? Environment.ProcessorCount;
        foreach (var (path, hash) in ManyFiles.Each(paths.Where(p => !_hashes.ContainsKey(p)), threads, p => FileHash.AudioSha256(p, cancel), cancel))
        {
            _hashes[path] = hash;
        }
    }
}
