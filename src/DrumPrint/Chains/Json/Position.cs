namespace DrumPrint.Chains.Json;

/// <summary>A place in a text file; lines and characters count from 1.</summary>
internal readonly record struct Position(int Line, int Column)
{
    public static Position Start => new(1, 1);
}
