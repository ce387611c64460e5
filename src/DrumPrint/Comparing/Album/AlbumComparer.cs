using DrumPrint.Audio;
using DrumPrint.Comparing.Targets;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Metering;
using DrumPrint.Session;

namespace DrumPrint.Comparing.Album;

/// <summary>Follows each print through the songs of an album.</summary>
public static class AlbumComparer
{
    private const int BlockFrames = 1 << 14;

    /// <summary>Measures every print of every song.</summary>
    /// <param name="folders">Two or more folders of prints, or tickets beside them.</param>
    /// <param name="threads">Number of threads; null for one for each processor core.</param>
    /// <param name="progress">Told how far it is, from any thread.</param>
    /// <param name="cancel">Stops the run.</param>
    /// <exception cref="UsageException">A folder holds no print, or a target is no folder.</exception>
    /// <exception cref="AudioFileException">A file cannot be read.</exception>
    public static AlbumReport Compare(IReadOnlyList<string> folders, int? threads = null, IProgress<PrintProgress>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(folders);
        if (folders.Count < 2)
        {
            throw new UsageException("An album needs the folders of two songs or more.");
        }

        if (folders.FirstOrDefault(f => CompareTarget.KindOf(f) != TargetKind.Folder) is { } other)
        {
            throw new UsageException($"{other} is {CompareTarget.Words(CompareTarget.KindOf(other))}; the album view takes folders of prints.");
        }

        var songs = folders.Select(PrintFolder.Read).ToList();
        var cells = Measure([.. songs.SelectMany(s => s.Prints).Where(p => p.Kind != PrintKind.Click)], threads, progress, cancel);
        var roughs = songs.Select(s => s.Prints.FirstOrDefault(p => p.Kind == PrintKind.Rough) is { } rough ? cells[rough.Path].LoudnessLufs : (double?)null).ToList();
        var hasRough = roughs.All(r => r is { } level && double.IsFinite(level));
        var rows = songs
            .SelectMany(s => s.Prints)
            .Where(p => p.Kind is not PrintKind.Click && !(hasRough && p.Kind == PrintKind.Rough))
            .GroupBy(p => p.Name, StringComparer.OrdinalIgnoreCase)
            .Select(group => new AlbumPrint(
                group.First().Number,
                group.First().Name,
                [.. songs.Select((song, i) => song.Prints.FirstOrDefault(p => string.Equals(p.Name, group.Key, StringComparison.OrdinalIgnoreCase)) is { } print
                    ? cells[print.Path] with { AgainstRoughLu = hasRough ? cells[print.Path].LoudnessLufs - roughs[i] : null }
                    : null)]))
            .OrderBy(p => p.Number)
            .ThenBy(p => p.Name, StringComparer.Ordinal)
            .ToList();
        return new AlbumReport(Titles(songs, folders), rows, hasRough, [.. songs.SelectMany(s => s.Notes)])
        {
            Heard = [.. songs.Select(s => (s.Prints.FirstOrDefault(p => p.Kind == PrintKind.Rough) ?? s.Prints[0]).Path)],
        };
    }

    private static List<string> Titles(List<PrintFolder> songs, IReadOnlyList<string> folders) =>
        [.. songs.Select((s, i) => songs.Count(o => o.Name == s.Name) > 1 ? $"{s.Name} ({folders[i]})" : s.Name)];

    private static Dictionary<string, AlbumCell> Measure(List<FolderPrint> prints, int? threads, IProgress<PrintProgress>? progress, CancellationToken cancel)
    {
        var cells = new AlbumCell[prints.Count];
        var done = 0;
        Parallel.For(0, prints.Count, new ParallelOptions { MaxDegreeOfParallelism = threads ?? Environment.ProcessorCount, CancellationToken = cancel }, i =>
        {
            cells[i] = Measure(prints[i].Path);
            progress?.Report(new PrintProgress("Measuring", (double)Interlocked.Increment(ref done) / prints.Count));
        });
        return prints.Zip(cells).DistinctBy(p => p.First.Path).ToDictionary(p => p.First.Path, p => p.Second, StringComparer.Ordinal);
    }

    private static AlbumCell Measure(string path)
    {
        using var reader = AudioReader.Open(path, AudioHashes.None);
        if (reader.Info.Channels > 2)
        {
            throw new AudioFileException(path, $"has {reader.Info.Channels} channels; prints of one or two channels can be compared.");
        }

        var format = new AudioFormat(reader.Info.SampleRate, reader.Info.Channels);
        var (levels, loudness) = (new LevelMeter(format), new LoudnessMeter(format, reader.Info.Frames));
        var channels = new double[format.Channels][];
        for (var channel = 0; channel < channels.Length; channel++)
        {
            channels[channel] = new double[BlockFrames];
        }

        for (var frames = reader.Read(new AudioBlock(channels, 0, BlockFrames)); frames > 0; frames = reader.Read(new AudioBlock(channels, 0, BlockFrames)))
        {
            var block = new AudioBlock(channels, 0, frames);
            levels.Add(block);
            loudness.Add(block);
        }

        return new AlbumCell(loudness.IntegratedLufs, null, levels.PeakDb, levels.CrestDb, levels.Correlation);
    }
}
