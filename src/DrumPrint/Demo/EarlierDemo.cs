using DrumPrint.Audio;
using DrumPrint.Demo.Kit;
using DrumPrint.Demo.Playing;
using DrumPrint.Demo.Recording;
using DrumPrint.Files;
using DrumPrint.Language;

namespace DrumPrint.Demo;

/// <summary>Sees to it that demo replaces nothing but what it wrote itself.</summary>
internal static class EarlierDemo
{
    private static readonly string[] InnerFolders = ["raw", "ir", "prints"];

    /// <summary>Looks at a folder before anything is written to it.</summary>
    /// <param name="folder">Where the session goes.</param>
    /// <param name="chain">Its chain file.</param>
    /// <param name="impulses">Its impulses, by path.</param>
    /// <param name="full">Whether the whole song is about to be written, or the cut.</param>
    /// <param name="cancel">Stops it.</param>
    /// <returns>What gives the new files their names, and leaves takes that somebody has edited.</returns>
    /// <exception cref="UsageException">It is a file. Or it holds a chain or tempo map that somebody has changed, or takes
    /// of the other form of the song. Or it holds something under a name of the session's that the session could not
    /// use.</exception>
    /// <exception cref="AudioFileException">A file cannot be read.</exception>
    public static EarlierFiles Check(string folder, string chain, IReadOnlyDictionary<string, double[][]> impulses, bool full, CancellationToken cancel = default)
    {
        if (File.Exists(folder))
        {
            throw new UsageException($"{folder} is a file, and demo writes a folder. Name a folder that is there, or a new one. Nothing was written.");
        }

        foreach (var inner in InnerFolders.Select(n => Path.Combine(folder, n)))
        {
            if (new FileInfo(inner).LinkTarget is { } target)
            {
                throw new UsageException($"{inner} is a link to {Show.Name(target)}, and demo writes through no link inside its folder. Take it away, or give demo another folder. Nothing was written.");
            }
        }

        if (SoundFiles(folder, impulses).Select(f => f.Path).FirstOrDefault(IsIrregular) is { } irregular)
        {
            throw new UsageException($"{irregular} is a link, a pipe or a device, no file, and demo would put its own in its place. Take it away, or give demo another folder. Nothing was written.");
        }

        if (TextFile.Find(chain) is { } text && text != ChainText.Of(full: true) && text != ChainText.Of(full: false))
        {
            throw new UsageException($"{chain} has been changed since demo wrote it, or another version wrote it, and demo would put its own in its place. Print it with: drumprint print {chain} — or give demo another folder. Nothing was written.");
        }

        var tempo = Path.Combine(folder, SongForm.TempoFile);
        var there = TextFile.Find(tempo);
        if (there is { } map && map != TempoText.Of(SongForm.Whole) && map != TempoText.Of(SongForm.Cut))
        {
            throw new UsageException($"{tempo} has been changed since demo wrote it, or another version wrote it, and demo would put its own in its place. Give demo another folder. Nothing was written.");
        }

        var others = SoundFiles(folder, impulses).Where(f => IsOther(f.Path, cancel)).ToList();
        var strangers = others.Where(f => !IsTake(f.Path, f.Channels)).Select(f => f.Path).ToList();
        if (strangers.Count > 0)
        {
            var (more, these, them) = strangers.Count == 1 ? ("", "this file", "it") : ($" and {strangers.Count - 1} more", "these files", "them");
            throw new UsageException($"{strangers[0]}{more}: demo did not write {these}, and the session could not use {them}. Move {them} away, or give demo another folder. Nothing was written.");
        }

        if (others.FirstOrDefault(f => !impulses.ContainsKey(f.Path)) is { Path: { } take } && there == TempoText.Of(full ? SongForm.Cut : SongForm.Whole))
        {
            throw new UsageException($"{take} is not as the demo writes it, and was recorded to {(full ? "the cut" : "the whole song")}; it would not fit {(full ? "the whole song" : "the cut")}, which demo would put beside it. Give demo another folder. Nothing was written.");
        }

        return new EarlierFiles(others.Select(f => f.Path).ToHashSet(StringComparer.Ordinal));
    }

    private static IEnumerable<(string Path, int Channels)> SoundFiles(string folder, IReadOnlyDictionary<string, double[][]> impulses) =>
        Microphones.All.Select(m => (Path.Combine(folder, "raw", m.FileName), 1)).Concat(impulses.Select(i => (i.Key, i.Value.Length)));

    private static bool IsIrregular(string path)
    {
        try
        {
            RegularFile.Check(path);
            return new FileInfo(path).LinkTarget is not null;
        }
        catch (IrregularFileException)
        {
            return true;
        }
    }

    // Whether something lies there that demo did not write.
    private static bool IsOther(string path, CancellationToken cancel) =>
        File.Exists(path) && new FileInfo(path).Length > 0 && !OwnFiles.Holds(EarlierFiles.Place(path), FileHash.Sha256(path, cancel));

    // Whether a file can stand in for the demo's own.
    private static bool IsTake(string path, int channels)
    {
        try
        {
            using var reader = AudioReader.Open(path);
            return reader.Info.Channels == channels;
        }
        catch (AudioFileException)
        {
            return false;
        }
    }
}
