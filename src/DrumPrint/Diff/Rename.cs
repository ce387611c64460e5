namespace DrumPrint.Diff;

/// <summary>A track, impulse or bus that goes by another name now.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="From">Its name before.</param>
/// <param name="To">Its name now.</param>
internal sealed record Rename(RenamedKind Kind, string From, string To);

/// <summary>What may go by another name.</summary>
internal enum RenamedKind
{
    Track,
    Impulse,
    Bus,
}
