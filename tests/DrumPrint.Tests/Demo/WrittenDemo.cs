using DrumPrint.Demo;
using DrumPrint.Demo.Playing;
using DrumPrint.Demo.Recording;
using DrumPrint.Files;

namespace DrumPrint.Tests.Demo;

/// <summary>The short cut of the demo session, written once for the whole run, since it takes seconds. Whoever changes or prints it takes a copy.</summary>
internal static class WrittenDemo
{
    private static readonly Lazy<DemoFiles> Written = new(() => Write(DemoTake.All(full: false)));
    private static readonly Lazy<DemoFiles> WrittenShort = new(() => Write(DemoTake.All(full: false) with { Frames = 10 * SongForm.SampleRate }));

    /// <summary>Every file of the session as <c>demo</c> writes it, in a folder that is there.</summary>
    public static DemoFiles CopyTo(string folder) => Copy(Written.Value, folder);

    /// <summary>The same session with takes of 10 s, for what does not hang on how long the song is.</summary>
    public static DemoFiles Short(string folder) => Copy(WrittenShort.Value, folder);

    private static DemoFiles Copy(DemoFiles written, string folder)
    {
        var root = Path.GetDirectoryName(written.Chain)!;
        return written with
        {
            Chain = Copied(written.Chain),
            Tempo = Copied(written.Tempo),
            Tracks = [.. written.Tracks.Select(Copied)],
            Impulses = [.. written.Impulses.Select(Copied)],
        };

        string Copied(string path)
        {
            var copy = Path.Combine(folder, Path.GetRelativePath(root, path));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(path, copy);
            return copy;
        }
    }

    private static DemoFiles Write(DemoTake take)
    {
        var folder = Directory.CreateTempSubdirectory("drumprint-demo-").FullName;
        AppDomain.CurrentDomain.ProcessExit += (_, _) => Directory.Delete(folder, recursive: true);
        return DemoSession.Write(folder, full: false, take, FileSteps.Plain, progress: null, CancellationToken.None);
    }
}
