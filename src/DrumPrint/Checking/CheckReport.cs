using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Pictures;

namespace DrumPrint.Checking;

/// <summary>What a check found.</summary>
/// <param name="Target">What was checked, as the user named it.</param>
/// <param name="Song">Title of the song, or the folder's name.</param>
/// <param name="Tempo">Bars; null without.</param>
/// <param name="Findings">By weight, then in the order of the rules.</param>
/// <param name="Files">How many files were read.</param>
/// <param name="Notes">What a reader should know of the check itself, in sentences.</param>
public sealed record CheckReport(string Target, string Song, TempoMap? Tempo, IReadOnlyList<Finding> Findings, int Files, IReadOnlyList<string> Notes)
{
    /// <summary>What a page shows of it; null when nobody asked for it.</summary>
    public CheckPictures? Pictures { get; init; }

    /// <summary>What nobody has signed off.</summary>
    public IEnumerable<Finding> Open => Findings.Where(f => f.AcceptedWhy is null);

    /// <summary>Whether anything above information is open.</summary>
    public bool NeedsALook => Open.Any(f => f.Severity > Severity.Information);

    /// <summary>How many are open of one weight.</summary>
    public int Count(Severity severity) => Open.Count(f => f.Severity == severity);

    /// <summary>A place as people find it: bar and beat where there is a tempo map, and seconds.</summary>
    public string Place(double seconds) => Bar(seconds) is { } bar ? $"{bar} ({Clock(seconds)})" : Clock(seconds);

    /// <summary>Bar and beat, such as <c>24:3.25</c>; null without a tempo map or outside it.</summary>
    public string? Bar(double seconds) => Tempo is { IsMissing: false } tempo ? tempo.BarAndBeat(seconds) : null;

    private static string Clock(double seconds) => string.Create(CultureInfo.InvariantCulture, $"{Math.Floor(seconds / 60):0}:{seconds % 60:00.000}");
}
