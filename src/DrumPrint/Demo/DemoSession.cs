using DrumPrint.Audio;
using DrumPrint.Demo.Kit;
using DrumPrint.Demo.Playing;
using DrumPrint.Demo.Recording;
using DrumPrint.Demo.Spaces;
using DrumPrint.Files;

namespace DrumPrint.Demo;

/// <summary>Writes the invented session "Slow Ferry to Marrow Point": raw tracks, impulse responses, tempo map and chain.
/// Every sample is worked out from the kit's geometry and a seed, the same on every machine.</summary>
public static class DemoSession
{
    /// <summary>Writes the session into a folder, made if need be. What demo wrote is replaced; a sound file of the session
    /// that is not as demo wrote it is kept, and told of. Nothing takes its final name before every track is whole.</summary>
    /// <param name="folder">Where the session goes.</param>
    /// <param name="full">The whole song of 200 s, or the cut of bars 17 to 26.</param>
    /// <param name="progress">Told how far the work has come, from any thread.</param>
    /// <param name="cancel">Stops the work; nothing half-written is left.</param>
    /// <exception cref="UsageException">The folder is a file. Or it holds a chain or tempo map that has been changed
    /// since, or files under the session's names that it could not use.</exception>
    /// <exception cref="AudioFileException">A file cannot be written.</exception>
    /// <exception cref="OperationCanceledException">The work was stopped.</exception>
    public static DemoFiles Write(string folder, bool full, IProgress<DemoProgress>? progress, CancellationToken cancel) =>
        Write(folder, full, DemoTake.All(full), FileSteps.Plain, progress, cancel);

    /// <summary>The same, of any take, written by given steps.</summary>
    internal static DemoFiles Write(string folder, bool full, DemoTake take, FileSteps steps, IProgress<DemoProgress>? progress, CancellationToken cancel)
    {
        var map = full ? SongForm.Whole : SongForm.Cut;
        var chainPath = Path.Combine(folder, "SlowFerry.chain.json");
        var impulses = take.Impulses.ToDictionary(i => Path.Combine(folder, "ir", i.Name), i => i.Channels);
        var earlier = EarlierDemo.Check(folder, chainPath, impulses, full, cancel);
        TextFile.MakeFolder(folder, steps);
        TextFile.MakeFolder(Path.Combine(folder, "raw"), steps);
        TextFile.MakeFolder(Path.Combine(folder, "ir"), steps);
        using var held = new FolderLock(steps);
        held.Take(folder, "demo", "give demo another folder");
        Leftovers.Clear(Path.Combine(folder, "raw"), steps);
        Leftovers.Clear(Path.Combine(folder, "ir"), steps);

        progress?.Report(new DemoProgress("Playing the song", 0));
        var tracks = new Recorder(Path.Combine(folder, "raw"), map, take.Frames, earlier, steps, progress, cancel).Record(take.Microphones);
        foreach (var (path, channels) in impulses)
        {
            using var writer = ImpulseWriter.Finished(path, channels, steps);
            earlier.Publish(writer);
        }

        var tempo = TextFile.Write(Path.Combine(folder, SongForm.TempoFile), TempoText.Of(map), steps);
        var chain = TextFile.Write(chainPath, ChainText.Of(full), steps);
        progress?.Report(new DemoProgress("Done", 1));
        return new DemoFiles(chain, tempo, tracks, [.. impulses.Keys], SongForm.SampleRate, take.Frames) { Notes = earlier.Notes };
    }
}
