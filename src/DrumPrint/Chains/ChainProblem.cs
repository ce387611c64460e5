namespace DrumPrint.Chains;

/// <summary>One mistake in a chain file.</summary>
/// <param name="File">The chain file as the user named it.</param>
/// <param name="Line">From 1.</param>
/// <param name="Column">From 1.</param>
/// <param name="Place">Where in the file's structure, such as <c>buses.impact.through[1].compress.ratio</c>; empty for the file itself.</param>
/// <param name="Message">What is wrong, what is allowed, the nearest valid choice.</param>
public sealed record ChainProblem(string File, int Line, int Column, string Place, string Message)
{
    public override string ToString() => Place.Length > 0
        ? FormattableString.Invariant($"{File}:{Line}:{Column}: {Place}: {Message}")
        : FormattableString.Invariant($"{File}:{Line}:{Column}: {Message}");
}
