using DrumPrint.Audio;
using DrumPrint.Files;
using DrumPrint.Session;

namespace DrumPrint.Printing.Runs;

/// <summary>Keeps prints out of the folders of raw tracks and impulses: they would be taken for raw tracks one day, or replace one.</summary>
internal static class InputGuard
{
    /// <summary>Looks at where prints are to go, before anything is written.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="isChosen">Whether it was asked for, or is where prints of this chain go.</param>
    /// <param name="inputs">What the chain reads.</param>
    /// <exception cref="UsageException">One of the inputs lies there.</exception>
    public static void Check(string folder, bool isChosen, SessionInputs inputs)
    {
        if (!Directory.Exists(folder))
        {
            return;
        }

        var there = RealPath.Of(folder);
        var folders = new Dictionary<string, string>(StringComparer.Ordinal);
        var files = inputs.Tracks.Values.SelectMany(t => t.Paths.Select(p => (What: $"track '{t.Track.Name}'", Path: p)))
            .Concat(inputs.ImpulseFiles.Select(i => (What: $"impulse '{i.File.Name}'", i.Path)));
        foreach (var (what, path) in files)
        {
            var named = Path.GetDirectoryName(Path.GetFullPath(path))!;
            if (!folders.TryGetValue(named, out var real))
            {
                folders.Add(named, real = RealPath.Of(named));
            }

            if (real == there || Path.GetDirectoryName(RealPath.Of(path)) == there)
            {
                var (whose, way) = isChosen ? ($"--out {folder}: this", "Name another folder.") : ($"{folder}, where the prints of this chain go: this", "Print to another folder with --out.");
                throw new UsageException($"{whose} folder holds {what} ({Path.GetFileName(path)}), and prints do not go among raw tracks and impulses. {way} Nothing was written.");
            }
        }
    }
}
