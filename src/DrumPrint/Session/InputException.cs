namespace DrumPrint.Session;

/// <summary>Raw tracks or impulses that cannot be used, with every one found.</summary>
public sealed class InputException(IReadOnlyList<string> problems)
    : DrumPrintException(string.Join(Environment.NewLine, problems))
{
    public IReadOnlyList<string> Problems { get; } = problems;
}
