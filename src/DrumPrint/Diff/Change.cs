namespace DrumPrint.Diff;

/// <summary>One thing in which two chains, or what they were printed from, differ.</summary>
/// <param name="Subject">Where: a bus, a track, the song.</param>
/// <param name="Text">What, in a drummer's words.</param>
public sealed record Change(string Subject, string Text)
{
    /// <summary>Prints it reaches, directly or through other buses, such as <c>01 Kick</c>; by number.</summary>
    public IReadOnlyList<string> Reaches { get; init; } = [];

    /// <summary>What decides which prints it reaches.</summary>
    internal ChangeScope Scope { get; init; } = ChangeScope.All;

    /// <summary>Subject and text in one line.</summary>
    public override string ToString() => $"{Subject}: {Text}";
}
