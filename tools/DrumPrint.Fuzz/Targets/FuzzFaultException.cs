namespace DrumPrint.Fuzz.Targets;

/// <summary>Something that must hold of a reader does not.</summary>
/// <param name="kind">One word: <c>memory</c>, <c>contradiction</c>.</param>
/// <param name="message">What was seen.</param>
internal sealed class FuzzFaultException(string kind, string message) : Exception(message)
{
    public string Kind { get; } = kind;
}
