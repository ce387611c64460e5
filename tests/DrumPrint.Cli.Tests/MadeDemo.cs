namespace DrumPrint.Cli.Tests;

/// <summary>What the command <c>demo</c> makes and says, once for the whole run, since it takes seconds. Each test that needs it takes a copy.</summary>
internal static class MadeDemo
{
    /// <summary>The folder it makes.</summary>
    public const string Session = "SlowFerry";

    private static readonly Lazy<(string Folder, ProgramRun Run)> Made = new(Make);

    /// <summary>How the command ended.</summary>
    public static ProgramRun Run => Made.Value.Run;

    /// <summary>All that the command leaves in the folder where it is given.</summary>
    public static void CopyTo(string folder) => Copy(Made.Value.Folder, folder);

    /// <summary>The session itself, as it lies there.</summary>
    /// <param name="folder">What takes the place of its folder.</param>
    /// <param name="isPrinted">Whether what a print makes is there too; otherwise it is as after <c>demo --no-print</c>.</param>
    public static void CopySessionTo(string folder, bool isPrinted)
    {
        var session = Path.Combine(Made.Value.Folder, Session);
        if (isPrinted)
        {
            Copy(session, folder);
            return;
        }

        foreach (var part in new[] { "raw", "ir" })
        {
            Copy(Path.Combine(session, part), Path.Combine(folder, part));
        }

        File.Copy(Path.Combine(session, $"{Session}.chain.json"), Path.Combine(folder, $"{Session}.chain.json"));
    }

    /// <summary>A folder with all that is in it.</summary>
    public static void Copy(string from, string to)
    {
        Directory.CreateDirectory(to);
        foreach (var folder in Directory.GetDirectories(from, "*", SearchOption.AllDirectories))
        {
            Directory.CreateDirectory(Path.Combine(to, Path.GetRelativePath(from, folder)));
        }

        foreach (var file in Directory.GetFiles(from, "*", SearchOption.AllDirectories))
        {
            File.Copy(file, Path.Combine(to, Path.GetRelativePath(from, file)));
        }
    }

    private static (string Folder, ProgramRun Run) Make()
    {
        var folder = Directory.CreateTempSubdirectory("drumprint-made-").FullName;
        AppDomain.CurrentDomain.ProcessExit += (_, _) => Directory.Delete(folder, recursive: true);
        return (folder, ProgramRun.Of(folder, "demo"));
    }
}
