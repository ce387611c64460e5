namespace DrumPrint.Tests.Support;

/// <summary>Expected results kept as text beside the tests.</summary>
internal static class Goldens
{
    /// <summary>Set to 1 to write goldens anew after a change of sound; the change then shows in the diff.</summary>
    private const string Switch = "DRUMPRINT_REWRITE_GOLDENS";

    /// <summary>Writes a golden of this project anew, when asked to; the test then fails or passes by the old one as usual.</summary>
    /// <param name="file">Path within the tests' folder, or from it.</param>
    /// <param name="text">What the code gives now.</param>
    public static void Rewrite(string file, string text)
    {
        if (Environment.GetEnvironmentVariable(Switch) != "1")
        {
            return;
        }

        File.WriteAllText(Repository.File("tests", "DrumPrint.Tests", file), text);
    }
}
