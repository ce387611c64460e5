using DrumPrint.Diff;

namespace DrumPrint.Printing.Reports;

/// <summary>A new print beside the one of its number that an earlier ticket of the folder tells of.</summary>
/// <param name="Version">Version of the song the earlier one was printed as.</param>
/// <param name="Pair">What was measured of the earlier one and of the new one.</param>
public sealed record EarlierSound(int Version, MeasuredPair Pair)
{
    /// <summary>Whether the new print takes the earlier one's place.</summary>
    public bool IsReplaced => Pair.A.FileName == Pair.B.FileName;

    /// <summary>What became of the sound, such as <c>4.6 LU louder</c>; null when its level did not move by 0.1.</summary>
    public string? Change => SoundWords.Of(Pair);
}
