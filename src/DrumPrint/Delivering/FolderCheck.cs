using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Files;

namespace DrumPrint.Delivering;

/// <summary>Holds a folder against its manifest.</summary>
internal sealed class FolderCheck(string folder, CancellationToken cancel)
{
    private const long MostTextBytes = 1 << 20;
    private const int MostExtras = 1000;

    private readonly List<DeliveryFinding> _findings = [];

    // What lies there under other names is read once, however many files are missing.
    private readonly Dictionary<string, string?> _hashes = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string?> _sounds = new(StringComparer.Ordinal);

    public DeliveryCheck Run()
    {
        var manifest = DeliveryManifest.ReadIn(folder);
        var extras = Extras(manifest);
        foreach (var file in manifest.Files)
        {
            cancel.ThrowIfCancellationRequested();
            Check(file, manifest, extras);
        }

        foreach (var extra in extras)
        {
            Add(DeliveryFindingKind.Extra, extra, $"{extra} was not delivered{(extra.StartsWith('.') || extra.Equals("Thumbs.db", StringComparison.OrdinalIgnoreCase) || extra.Equals("desktop.ini", StringComparison.OrdinalIgnoreCase) ? "; your system or program put it there" : "")}.");
        }

        Sums(manifest);
        Agreement(manifest);
        return new DeliveryCheck(manifest, _findings);
    }

    private List<string> Extras(DeliveryManifest manifest)
    {
        var known = manifest.Files.Select(f => f.Name).Append(manifest.FileName).Append(SumsFile.Name).ToHashSet(StringComparer.Ordinal);
        return [.. new DirectoryInfo(folder).EnumerateFileSystemInfos().Take(MostExtras + known.Count).Select(e => e.Name).Where(n => !known.Contains(n)).Order(StringComparer.Ordinal)];
    }

    private void Check(DeliveredFile file, DeliveryManifest manifest, List<string> extras)
    {
        var path = PathOf(file.Name);
        var info = new FileInfo(path);
        if (info.LinkTarget is not null)
        {
            Add(DeliveryFindingKind.Changed, file.Name, $"{file.Name} is a link, and was not followed. A delivered file is a file.");
        }
        else if (!info.Exists)
        {
            Missing(file, manifest, extras);
        }
        else if (info.Length != file.Bytes)
        {
            Changed(file, manifest, path, info.Length);
        }
        else if (Hash(path) is not { } hash)
        {
            Add(DeliveryFindingKind.Changed, file.Name, $"{file.Name} cannot be read.");
        }
        else if (hash != file.FileSha256)
        {
            Changed(file, manifest, path, info.Length);
        }
        else
        {
            Header(file, manifest, path);
        }
    }

    private void Missing(DeliveredFile file, DeliveryManifest manifest, List<string> extras)
    {
        var renamed = extras.FirstOrDefault(e => IsPlain(e) && new FileInfo(PathOf(e)).Length == file.Bytes && HashOnce(e) == file.FileSha256);
        var isSame = renamed is not null;
        renamed ??= file.Sound is null ? null : extras.FirstOrDefault(e => IsPlain(e) && AudioFileName.IsLikely(e) && SoundOnce(e, manifest) == file.Sound.AudioSha256);
        if (renamed is null)
        {
            Add(DeliveryFindingKind.Missing, file.Name, $"{file.Name} is not there. Ask for it again.");
            return;
        }

        extras.Remove(renamed);
        Add(DeliveryFindingKind.Renamed, file.Name, isSame
            ? $"{file.Name} goes by the name of {renamed}; it is the same to the last byte."
            : $"{file.Name} goes by the name of {renamed}; its samples are the same, what stands around them is not.");
    }

    private string? HashOnce(string name)
    {
        cancel.ThrowIfCancellationRequested();
        return _hashes.TryGetValue(name, out var hash) ? hash : _hashes[name] = Hash(PathOf(name));
    }

    private string? SoundOnce(string name, DeliveryManifest manifest)
    {
        cancel.ThrowIfCancellationRequested();
        return _sounds.TryGetValue(name, out var sound) ? sound : _sounds[name] = Sums(PathOf(name), manifest)?.AudioSha256;
    }

    private void Changed(DeliveredFile file, DeliveryManifest manifest, string path, long bytes)
    {
        if (file.SourceSha256 is { } source && AudioOf(path) == source)
        {
            Add(DeliveryFindingKind.HeaderChanged, file.Name, $"{file.Name} holds the same samples; what stands around them was changed, as by a program that writes its own notes into files.");
        }
        else if (file.Sound is null)
        {
            Add(bytes < file.Bytes ? DeliveryFindingKind.Shortened : DeliveryFindingKind.Changed, file.Name, bytes < file.Bytes
                ? string.Create(CultureInfo.InvariantCulture, $"{file.Name} holds {bytes} bytes of {file.Bytes}: it was cut, or changed.")
                : $"{file.Name} was changed since it was delivered.");
        }
        else if (Sums(path, manifest) is not { } sound)
        {
            Add(bytes < file.Bytes ? DeliveryFindingKind.Shortened : DeliveryFindingKind.Changed, file.Name, string.Create(
                CultureInfo.InvariantCulture,
                $"{file.Name} can no longer be read as sound; {(bytes < file.Bytes ? $"{bytes} bytes of {file.Bytes} arrived" : "its header was damaged")}. Ask for it again."));
        }
        else if (sound.AudioSha256 == file.Sound.AudioSha256)
        {
            Add(DeliveryFindingKind.HeaderChanged, file.Name, $"{file.Name} holds the same samples; what stands around them was changed, as by a program that writes its own notes into files.");
        }
        else if (sound.Frames < file.Sound.Frames)
        {
            Add(DeliveryFindingKind.Shortened, file.Name, string.Create(
                CultureInfo.InvariantCulture,
                $"{file.Name} has {sound.Frames} frames of {file.Sound.Frames}: {(double)sound.Frames / manifest.RateHz:0.000} s of {(double)file.Sound.Frames / manifest.RateHz:0.000}{(Same(sound, file.Sound) == sound.Pieces.Length / SoundSums.PieceDigits ? "; what is left is the same" : "; what is left is not the same either")}."));
        }
        else
        {
            Add(DeliveryFindingKind.Changed, file.Name, string.Create(
                CultureInfo.InvariantCulture, $"{file.Name} has other samples, for the first time in second {Same(sound, file.Sound) + 1}. Ask for it again."));
        }
    }

    // Whole seconds that are the same, from the start.
    private static int Same(DeliveredSound a, DeliveredSound b)
    {
        var digits = Math.Min(a.Pieces.Length, b.Pieces.Length);
        for (var at = 0; at < digits; at += SoundSums.PieceDigits)
        {
            if (!a.Pieces.AsSpan(at, SoundSums.PieceDigits).SequenceEqual(b.Pieces.AsSpan(at, SoundSums.PieceDigits)))
            {
                return at / SoundSums.PieceDigits;
            }
        }

        return digits / SoundSums.PieceDigits;
    }

    // The file is the one that was delivered; then the manifest may still say of it what is not so.
    private void Header(DeliveredFile file, DeliveryManifest manifest, string path)
    {
        if (file.Sound is not { } sound)
        {
            return;
        }

        try
        {
            using var reader = AudioReader.Open(path, AudioHashes.None);
            var info = reader.Info;
            if (info.SampleRate != manifest.RateHz || info.Frames != manifest.Frames || info.Channels != sound.Channels || info.Encoding != manifest.Encoding)
            {
                Add(DeliveryFindingKind.Contradiction, file.Name, string.Create(
                    CultureInfo.InvariantCulture,
                    $"{file.Name} is {info.SampleRate} Hz, {info.Frames} frames, {info.Channels} channels, {Word(info.Encoding)}; the manifest says {manifest.RateHz} Hz, {manifest.Frames} frames, {sound.Channels} channels, {Word(manifest.Encoding)}."));
            }
        }
        catch (AudioFileException e)
        {
            Add(DeliveryFindingKind.Contradiction, file.Name, $"{file.Name} is no sound that can be read: {e.Problem}");
        }

        if (DeliveredName.VersionIn(file.Name) is { } said && said != manifest.Version)
        {
            Add(DeliveryFindingKind.Contradiction, file.Name, string.Create(CultureInfo.InvariantCulture, $"{file.Name} is named as another version; the manifest says version {manifest.Version}."));
        }
    }

    // The list of sums is made from the manifest, so both say the same.
    private void Sums(DeliveryManifest manifest)
    {
        if (TextOf(SumsFile.Name) is not { } text)
        {
            Add(DeliveryFindingKind.Missing, SumsFile.Name, $"{SumsFile.Name} is not there.");
            return;
        }

        var expected = SumsFile.Text([.. manifest.Files.Select(f => (f.Name, f.FileSha256)), (manifest.FileName, Hash(DeliveryManifest.PathIn(folder)) ?? "")]);
        if (text.ReplaceLineEndings("\n") != expected)
        {
            Add(DeliveryFindingKind.Contradiction, SumsFile.Name, $"{SumsFile.Name} and the manifest do not say the same: one of them was changed.");
        }
    }

    // What a person reads on the sheet must be what is there.
    private void Agreement(DeliveryManifest manifest)
    {
        foreach (var sheet in manifest.Files.Where(f => f.Kind == DeliveredKind.Sheet && f.Name.EndsWith(".txt", StringComparison.Ordinal)))
        {
            if (TextOf(sheet.Name) is not { } text)
            {
                continue;
            }

            var lines = text.ReplaceLineEndings("\n").Split('\n');
            Line(sheet.Name, lines, SheetBuilder.VersionStart, string.Create(CultureInfo.InvariantCulture, $"v{manifest.Version}"));
            Line(sheet.Name, lines, SheetBuilder.LengthStart, SheetBuilder.Length(manifest));
        }
    }

    private void Line(string name, string[] lines, string start, string expected)
    {
        var said = lines.FirstOrDefault(l => l.StartsWith(start, StringComparison.Ordinal))?[start.Length..].Trim();
        if (said != expected)
        {
            Add(DeliveryFindingKind.Contradiction, name, $"{name} says {start.Trim('-', ' ', ':').ToLowerInvariant()} '{Language.Show.Name(said ?? "nothing")}'; the files are '{expected}'. Sheet and files are not of one delivery.");
        }
    }

    private string? TextOf(string name)
    {
        var path = PathOf(name);
        try
        {
            return new FileInfo(path).LinkTarget is null ? System.Text.Encoding.UTF8.GetString(RegularFile.ReadAll(path, MostTextBytes)) : null;
        }
        catch (Exception e) when (FileErrors.Are(e))
        {
            return null;
        }
    }

    private DeliveredSound? Sums(string path, DeliveryManifest manifest)
    {
        try
        {
            return SoundIn(path, manifest.Encoding, cancel);
        }
        catch (AudioFileException)
        {
            return null;
        }
    }

    /// <summary>The samples of a file as an encoding holds them; the hash of what the encoding cannot hold is none.</summary>
    internal static DeliveredSound SoundIn(string path, SampleEncoding encoding, CancellationToken cancel)
    {
        using var reader = AudioReader.Open(path, AudioHashes.None);
        if (reader.Info.Channels > 2)
        {
            return new DeliveredSound(reader.Info.Channels, reader.Info.Frames, encoding, "", "");
        }

        using var sums = SoundSums.Of(reader, encoding, cancel);
        return new DeliveredSound(reader.Info.Channels, reader.Info.Frames, encoding, sums.IsExact ? sums.AudioSha256() : "", sums.IsExact ? string.Concat(sums.Pieces) : "");
    }

    private string? AudioOf(string path)
    {
        try
        {
            return FileHash.AudioSha256(path, cancel);
        }
        catch (AudioFileException)
        {
            return null;
        }
    }

    private bool IsPlain(string name) => new FileInfo(PathOf(name)) is { Exists: true, LinkTarget: null };

    private string? Hash(string path)
    {
        try
        {
            return FileHash.Sha256(path, cancel);
        }
        catch (AudioFileException)
        {
            return null;
        }
    }

    private static string Word(SampleEncoding encoding) => Tickets.EncodingKeys.Word(encoding);

    private string PathOf(string name) => Path.Combine(folder, name);

    private void Add(DeliveryFindingKind kind, string file, string text) => _findings.Add(new DeliveryFinding(kind, file, text));
}
