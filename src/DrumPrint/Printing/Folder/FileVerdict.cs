using DrumPrint.Audio;
using DrumPrint.Printing.Runs;
using DrumPrint.Tickets;

namespace DrumPrint.Printing.Folder;

/// <summary>What is made of the file that lies under a new print's name.</summary>
/// <param name="Print">The new print.</param>
/// <param name="Path">The name.</param>
/// <param name="State">What lies there.</param>
internal sealed record FileVerdict(PrintFigures Print, string Path, FileState State)
{
    /// <summary>What the file says of how it was made; null when it says nothing that can be read.</summary>
    public PrintPart? Part { get; init; }

    /// <summary>Whether what the file says of itself cannot be read.</summary>
    public bool IsGarbled { get; init; }

    /// <summary>Hash of the file; null when none is there.</summary>
    public string? FileSha256 { get; init; }

    /// <summary>Whether somebody has changed it since it was printed, or may have: it must not be lost.</summary>
    public bool MayBeChanged => State is FileState.Edited or FileState.Unproven or FileState.Damaged;

    /// <summary>Number and name of the print, as its file begins.</summary>
    public string Name => FormattableString.Invariant($"{Print.Target.Number:00}_{Print.Target.Name}");

    /// <summary>Whether an earlier file holds the samples of the new one, up to where the shorter of the two ends.</summary>
    public bool IsSameWhileBothLast(string earlier) => State is FileState.OnlyLonger or FileState.OnlyShorter or FileState.SameSound
        || IsSameWhileBothLast(Print, earlier);

    /// <summary>The same of any print and any file.</summary>
    public static bool IsSameWhileBothLast(PrintFigures print, string earlier)
    {
        try
        {
            return print.Writer is { } writer && PrintComparison.IsSameWhileBothLast(earlier, writer.PartialPath);
        }
        catch (AudioFileException)
        {
            return false; // what cannot be read is not the same
        }
    }
}
