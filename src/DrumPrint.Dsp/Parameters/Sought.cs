namespace DrumPrint.Dsp.Parameters;

/// <summary>A number that is set by a goal.</summary>
/// <param name="Goal">The goal.</param>
/// <param name="Settings">What is said of it.</param>
/// <param name="Found">The number that brings it about; null until somebody has looked for it.</param>
public sealed record Sought(Goal Goal, Settings Settings, double? Found)
{
    /// <summary>Whether another asks for the same, whatever was found.</summary>
    public bool AsksAs(Sought? other) => other is not null && other.Goal == Goal && Goal.Parameters.All(p => Equals(Settings.Raw(p), other.Settings.Raw(p)));
}
