namespace DrumPrint.Chains;

/// <summary>One mistake in a chain file.</summary>
/// <param name="File">The chain file as the user named it.</param>
/// <param name="Line">From 1; 0 when the whole file is meant.</param>
/// <param name="Column">From 1; 0 when the whole file is meant.</param>
/// <param name="Place">Where in the file's structure, such as <c>buses.impact.through[1].compress.ratio</c>; empty for the file itself.</param>
/// <param name="Message">What is wrong, what is allowed, the nearest valid choice.</param>
public sealed record ChainProblem(string File, int Line, int Column, string Place, string Message)
{
    public override string ToString()
    {
        var where = Line > 0 ? FormattableString.Invariant($"{File}:{Line}:{Column}") : File;
        return Place.Length > 0 ? $"{where}: {Place}: {Message}" : $"{where}: {Message}";
    }
}
