namespace DrumPrint.Tests.Chains;

/// <summary>Finds the files the tests share with readers of the repository.</summary>
internal static class Fixtures
{
    public static string Root { get; } = FindRoot();

    public static string Chain(string name) => Path.Combine(Root, "fixtures", "chains", name);

    private static string FindRoot()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "DrumPrint.sln")))
        {
            folder = Path.GetDirectoryName(folder) ?? throw new DirectoryNotFoundException("The tests run outside the repository.");
        }

        return folder;
    }
}
