using DrumPrint.Audio;
using DrumPrint.Chains;

namespace DrumPrint.Tickets;

/// <summary>The record of one run: what went in, what came out, by hash.</summary>
/// <remarks>Nothing in it depends on clock, machine, absolute path, culture or number of threads.</remarks>
public sealed record Ticket
{
    /// <summary>Form of this record.</summary>
    public int Form { get; init; } = TicketKeys.Format;

    /// <summary>Version of the program that printed.</summary>
    public required string Engine { get; init; }

    /// <summary>The chain, its tempo map included.</summary>
    public required Chain Chain { get; init; }

    /// <summary>Hash of the chain's canonical text, as taken down.</summary>
    public required string ChainSha256 { get; init; }

    /// <summary>Hash of the tempo map's canonical text, as taken down; null without one.</summary>
    public string? TempoSha256 { get; init; }

    /// <summary>Word length, which may have been chosen over the chain's.</summary>
    public required SampleEncoding Encoding { get; init; }

    /// <summary>Length of every print.</summary>
    public required long Frames { get; init; }

    /// <summary>Common trim of all prints.</summary>
    public double TrimDb { get; init; }

    /// <summary>Largest difference between the sum of the playing prints and the rough; −∞ when nothing is left, null when it
    /// was not measured.</summary>
    public double? NullPeakDbfs { get; init; }

    public required IReadOnlyList<RecordedInput> Tracks { get; init; }

    public required IReadOnlyList<RecordedInput> Impulses { get; init; }

    public required IReadOnlyList<RecordedPrint> Prints { get; init; }

    public IReadOnlyList<string> Notes { get; init; } = [];

    public IReadOnlyList<string> Findings { get; init; } = [];

    /// <summary>Form of the records inside its prints.</summary>
    internal int PartForm => Form == TicketKeys.WithoutSeals ? PartKeys.WithoutSeal : PartKeys.Format;

    /// <summary>Name of the file that holds the ticket, beside the prints.</summary>
    public static string FileName(Song song)
    {
        ArgumentNullException.ThrowIfNull(song);
        return FormattableString.Invariant($"{song.Code}_v{song.Version}.ticket.json");
    }

    /// <summary>Reads a ticket.</summary>
    /// <exception cref="UnreadableFileException">The file is not there or cannot be opened.</exception>
    /// <exception cref="TicketException">It is no ticket of a known format; every mistake is named and located.</exception>
    public static Ticket Read(string path) => TicketReader.Read(path);

    /// <summary>The ticket as JSON.</summary>
    public string ToText() => TicketWriter.Text(this);
}
