namespace DrumPrint;

/// <summary>Where the project lies, found from the program's own place upwards. Every test project and tool that asks shares this file.</summary>
internal static class Repository
{
    /// <summary>The folder of the whole project.</summary>
    public static string Folder { get; } = Find();

    /// <summary>A file or folder of the project.</summary>
    public static string File(params string[] steps) => Path.Combine([Folder, .. steps]);

    private static string Find()
    {
        for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
        {
            if (System.IO.File.Exists(Path.Combine(folder.FullName, "DrumPrint.sln")))
            {
                return folder.FullName;
            }
        }

        throw new InvalidOperationException("DrumPrint.sln is in no folder above this program.");
    }
}
