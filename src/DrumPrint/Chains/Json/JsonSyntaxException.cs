namespace DrumPrint.Chains.Json;

/// <summary>A text that is not JSON: where it breaks and what to do, in plain words.</summary>
internal sealed class JsonSyntaxException(Position position, string place, string message) : Exception(message)
{
    public Position Position { get; } = position;

    /// <summary>The innermost place known when it broke.</summary>
    public string Place { get; } = place;
}
