namespace DrumPrint.Delivering;

/// <summary>A wish of a mixer beside what was changed for it.</summary>
/// <param name="Version">Version that answers it.</param>
/// <param name="Text">The wish.</param>
/// <param name="Changes">What was changed for it since the delivery before, in the words of <c>diff</c>; empty when nothing was.</param>
/// <param name="Answer">What is said to it; null when the changes say it all.</param>
public sealed record AnsweredWish(int Version, string Text, IReadOnlyList<string> Changes, string? Answer)
{
    /// <summary>What was done for it, in one line.</summary>
    public string Outcome => string.Join(" ", new[] { Changes.Count == 0 ? "Nothing was changed for it." : string.Join("; ", Changes) + ".", Answer }.OfType<string>());
}
