namespace DrumPrint.Checking.Findings;

/// <summary>What one check looks for.</summary>
/// <param name="Id">A letter and a number, by which a finding is signed off.</param>
/// <param name="Severity">How much it matters as a rule; a finding may count for less.</param>
/// <param name="Title">What goes wrong, in a few words.</param>
/// <param name="Threshold">From where on it is told.</param>
/// <param name="Fix">What to do about it.</param>
/// <param name="Source">Where the threshold comes from.</param>
public sealed record Rule(string Id, Severity Severity, string Title, string Threshold, string Fix, string Source = Rule.CommonPractice)
{
    /// <summary>Said of a threshold that no document names.</summary>
    public const string CommonPractice = "common practice, no source";

    /// <summary>Seconds that a picture of one place of it shows.</summary>
    public double PictureS { get; init; } = 0.4;
}
