namespace DrumPrint.Chains;

/// <summary>A chain that cannot be used, with every mistake found.</summary>
public sealed class ChainException(IReadOnlyList<ChainProblem> problems)
    : DrumPrintException(string.Join(Environment.NewLine, problems))
{
    public IReadOnlyList<ChainProblem> Problems { get; } = problems;
}
