namespace DrumPrint.Cli.Output;

/// <summary>What somebody reads who started the program without a word: three lines on what to do next.</summary>
internal static class FirstScreen
{
    public static void Write()
    {
        Terminal.Tell($"DrumPrint {EngineVersion.Text} turns the raw tracks of a drum kit into the few tracks a mixer should get.");
        Terminal.Tell("");
        Terminal.Tell("  drumprint demo            prints an invented session, to see how it goes");
        Terminal.Tell("  drumprint begin FOLDER    starts from a folder of your own takes");
        Terminal.Tell("  drumprint help            lists every command");
    }
}
