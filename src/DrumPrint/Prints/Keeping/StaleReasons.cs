namespace DrumPrint.Prints.Keeping;

/// <summary>Says why a print had to be rendered, by what the file that was there says of itself.</summary>
internal static class StaleReasons
{
    public static IReadOnlyList<string> Of(RunSetup setup, PrintAttempt attempt, long frames, int number) => [];
}
