using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Writing;
using DrumPrint.Tickets;

namespace DrumPrint.Reprinting;

/// <summary>Prints that one render makes again.</summary>
internal sealed record ReprintJob
{
    /// <summary>The ticket or print it was read from.</summary>
    public required string Source { get; init; }

    /// <summary>Whether that is a ticket, which holds the whole chain.</summary>
    public required bool IsOfTicket { get; init; }

    public required string Engine { get; init; }

    public required Chain Chain { get; init; }

    /// <summary>Whether the chain's hash is not the one taken down with it.</summary>
    public required bool IsChainEdited { get; init; }

    public required SampleEncoding Encoding { get; init; }

    public required long Frames { get; init; }

    public required double TrimDb { get; init; }

    public required IReadOnlyList<RecordedInput> Tracks { get; init; }

    public required IReadOnlyList<RecordedInput> Impulses { get; init; }

    public required IReadOnlyList<OldPrint> Prints { get; init; }

    public static ReprintJob Of(string path, Ticket ticket, IReadOnlyList<OldPrint> prints) => new()
    {
        Source = path,
        IsOfTicket = true,
        Engine = ticket.Engine,
        Chain = ticket.Chain,
        IsChainEdited = IsEdited(ticket.Chain, ticket.ChainSha256, ticket.TempoSha256),
        Encoding = ticket.Encoding,
        Frames = ticket.Frames,
        TrimDb = ticket.TrimDb,
        Tracks = ticket.Tracks,
        Impulses = ticket.Impulses,
        Prints = prints,
    };

    public static ReprintJob Of(string path, PrintPart part, OldPrint print) => new()
    {
        Source = path,
        IsOfTicket = false,
        Engine = part.Engine,
        Chain = part.Chain,
        IsChainEdited = IsEdited(part.Chain, part.ChainSha256, part.TempoSha256),
        Encoding = part.Encoding,
        Frames = part.Frames,
        TrimDb = part.TrimDb,
        Tracks = part.Tracks,
        Impulses = part.Impulses,
        Prints = [print],
    };

    private static bool IsEdited(Chain chain, string sha256, string? tempoSha256) =>
        CanonicalHash.Of(chain) != sha256 || CanonicalHash.Of(chain.Song.Tempo) != tempoSha256;
}

/// <summary>A print as it is, or as a ticket says it was.</summary>
/// <param name="Number">Its number in the chain.</param>
/// <param name="FileName">The file, without folder.</param>
/// <param name="Path">The file; null when it is gone.</param>
/// <param name="Recorded">What a ticket says of it; null without one.</param>
/// <param name="Witness">The chain it was made by according to another file; null without one.</param>
/// <param name="Form">Form of the record inside it.</param>
/// <param name="Engine">Version that it names as its maker.</param>
internal sealed record OldPrint(int Number, string FileName, string? Path, RecordedPrint? Recorded, Witness? Witness, int Form, string Engine);

/// <summary>A second word on how a print was made.</summary>
/// <param name="Chain">The chain, cut down to the print.</param>
/// <param name="Where">Where it says so, such as <c>in the print</c>.</param>
internal sealed record Witness(Chain Chain, string Where);
