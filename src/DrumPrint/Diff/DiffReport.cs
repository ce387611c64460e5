using DrumPrint.Tickets;

namespace DrumPrint.Diff;

/// <summary>What differs between two tickets, chains, prints or folders.</summary>
/// <param name="Changes">Every change, in one order.</param>
/// <param name="Measured">What was measured of prints that both sides know, by number.</param>
/// <param name="Notes">What one side does not say and so could not be compared, in sentences.</param>
public sealed record DiffReport(IReadOnlyList<Change> Changes, IReadOnlyList<MeasuredPair> Measured, IReadOnlyList<string> Notes)
{
    /// <summary>Whether nothing differs of what both sides say.</summary>
    public bool IsEqual => Changes.Count == 0;
}

/// <summary>A print as both sides measured it.</summary>
/// <param name="Name">Number and name.</param>
/// <param name="A">One side.</param>
/// <param name="B">The other.</param>
/// <param name="LengthA">Length in seconds.</param>
/// <param name="LengthB">Length in seconds.</param>
public sealed record MeasuredPair(string Name, RecordedPrint A, RecordedPrint B, double LengthA, double LengthB)
{
    /// <summary>Whether the samples are the same.</summary>
    public bool IsSameAudio => A.AudioSha256 == B.AudioSha256;
}
