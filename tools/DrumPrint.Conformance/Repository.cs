namespace DrumPrint.Conformance;

/// <summary>Where the repository is, found from the program's own place upwards.</summary>
internal static class Repository
{
    public static string Folder
    {
        get
        {
            for (var folder = new DirectoryInfo(AppContext.BaseDirectory); folder is not null; folder = folder.Parent)
            {
                if (File.Exists(Path.Combine(folder.FullName, "DrumPrint.sln")))
                {
                    return folder.FullName;
                }
            }

            throw new InvalidOperationException("DrumPrint.sln is in no folder above this program.");
        }
    }

    public static string Sheet => Path.Combine(Folder, "docs", "conformance.md");
}
