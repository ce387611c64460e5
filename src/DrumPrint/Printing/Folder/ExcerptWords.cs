using System.Globalization;
using DrumPrint.Language;
using DrumPrint.Planning;
using DrumPrint.Printing.Runs;
using DrumPrint.Rendering;

namespace DrumPrint.Printing.Folder;

/// <summary>What an excerpt tells of how it was made, and how it stands to the prints of the whole song.</summary>
internal static class ExcerptWords
{
    /// <summary>The sentences.</summary>
    /// <param name="setup">The run.</param>
    /// <param name="attempt">What was rendered.</param>
    public static IEnumerable<string> Of(RunSetup setup, PrintAttempt attempt)
    {
        foreach (var line in Begun(attempt.Plans.Select(p => p.Late).FirstOrDefault(), setup.Run.From, setup.Chain.Song.RateHz))
        {
            yield return line;
        }

        if (setup.Chain.Output.LowerTogether)
        {
            yield return Trim(setup.Run.KnownTrimDb, attempt.TrimDb);
        }
    }

    /// <summary>Where it began, and how far it may differ from the print.</summary>
    /// <param name="late">How it began; null for what began with the song.</param>
    /// <param name="from">Song frame of its first sample.</param>
    /// <param name="rateHz">Sample rate.</param>
    public static IEnumerable<string> Begun(LateBegin? late, long from, int rateHz)
    {
        if (late is null)
        {
            yield return "Begun at the start of the song: exact.";
            yield break;
        }

        var before = string.Create(CultureInfo.InvariantCulture, $"Begun {(double)(from - late.Frame) / rateHz:0.0} s before the stretch");
        if (late.IsExact)
        {
            yield return $"{before}: exact.";
        }
        else
        {
            yield return $"{before}: differs from the print by less than −100 dBFS (exact: --exact).";
        }

        if (late.Forgetting.Count > 0)
        {
            yield return $"These remember longer than {Beginnings.LongestMemoryS} s, so it may differ by more: {Show.Some([.. late.Forgetting.Select(Show.Name)])}.";
        }
    }

    private static string Trim(double? known, double trimDb) => known switch
    {
        null => "How far this excerpt had to be lowered was worked out from the excerpt alone; the whole session may be lowered further.",
        _ when trimDb < known => string.Create(CultureInfo.InvariantCulture, $"The last prints were lowered by {-known:0.0} dB. This stretch asks for more; the whole session may ask for more still."),
        0 => "The last prints were not lowered, so this excerpt is not; a chain that changed since may be.",
        _ => "This is the trim of the last prints; a chain that changed since may ask for another.",
    };
}
