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
    private const double WholeS = 200;
    private const double CutS = 24;

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
    public static DemoFiles Write(string folder, bool full, IProgress<DemoProgress>? progress, CancellationToken cancel)
    {
        var map = full ? SongForm.Whole : SongForm.Cut;
        var frames = (long)((full ? WholeS : CutS) * SongForm.SampleRate);
        var chainPath = Path.Combine(folder, "SlowFerry.chain.json");
        var impulses = new Dictionary<string, double[][]>
        {
            [Path.Combine(folder, "ir", "chamber_4ch.wav")] = Chamber.Make(),
            [Path.Combine(folder, "ir", "small_space.wav")] = SmallSpace.Make(),
        };
        var earlier = EarlierDemo.Check(folder, chainPath, impulses, full);
        TextFile.MakeFolder(folder);
        TextFile.MakeFolder(Path.Combine(folder, "raw"));
        TextFile.MakeFolder(Path.Combine(folder, "ir"));
        using var held = new FolderLock();
        held.Take(folder, "demo", "give demo another folder");
        Leftovers.Clear(Path.Combine(folder, "raw"));
        Leftovers.Clear(Path.Combine(folder, "ir"));

        progress?.Report(new DemoProgress("Playing the song", 0));
        var tracks = new Recorder(Path.Combine(folder, "raw"), map, frames, earlier, progress, cancel).Record(Microphones.All);
        foreach (var (path, channels) in impulses)
        {
            using var writer = ImpulseWriter.Finished(path, channels);
            earlier.Publish(writer);
        }

        var tempo = TextFile.Write(Path.Combine(folder, SongForm.TempoFile), TempoText.Of(map));
        var chain = TextFile.Write(chainPath, ChainText.Of(full));
        progress?.Report(new DemoProgress("Done", 1));
        return new DemoFiles(chain, tempo, tracks, [.. impulses.Keys], SongForm.SampleRate, frames) { Notes = earlier.Notes };
    }
}
