namespace DrumPrint.Bench.Messages;

/// <summary>What a look over the takes found.</summary>
/// <param name="Findings">By weight.</param>
/// <param name="Moves">What would line tracks up.</param>
/// <param name="Notes">What a reader should know of the look itself.</param>
internal sealed record FindingsMessage(IReadOnlyList<FindingState> Findings, IReadOnlyList<MoveState> Moves, IReadOnlyList<string> Notes)
{
    public string Kind { get; } = "findings";
}

/// <summary>One finding.</summary>
/// <param name="Rule">Its rule.</param>
/// <param name="Weight">fault, warning or worth knowing; signed off when somebody did that.</param>
/// <param name="About">Track, bus or print; empty for the whole set.</param>
/// <param name="Text">What was measured, and what it means.</param>
/// <param name="Fix">What mends it, or why it was signed off.</param>
/// <param name="AtS">The first place where it is heard.</param>
/// <param name="Where">The same as people find it.</param>
internal sealed record FindingState(string Rule, string Weight, string About, string Text, string Fix, double? AtS, string? Where);

/// <summary>What would line a track up.</summary>
internal sealed record MoveState(string Track, string Text);
