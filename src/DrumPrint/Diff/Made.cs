using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Diff;

/// <summary>What is known of how prints were made, or are to be: from a chain, a ticket or a print.</summary>
internal sealed record Made
{
    /// <summary>The file, for people.</summary>
    public required string Source { get; init; }

    /// <summary>What the file is: a chain, a ticket or a print.</summary>
    public required string Kind { get; init; }

    public required Chain Chain { get; init; }

    /// <summary>The print when it is about one only.</summary>
    public int? Number { get; init; }

    public string? Engine { get; init; }

    public SampleEncoding? Encoding { get; init; }

    public long? Frames { get; init; }

    public double? TrimDb { get; init; }

    /// <summary>Raw tracks and impulses with their hashes; null when it is not known what they were.</summary>
    public IReadOnlyList<RecordedInput>? Tracks { get; init; }

    public IReadOnlyList<RecordedInput>? Impulses { get; init; }

    /// <summary>Prints that were measured.</summary>
    public IReadOnlyList<RecordedPrint> Prints { get; init; } = [];

    public static Made Of(string source, Chain chain) => new() { Source = source, Kind = "chain", Chain = chain };

    public static Made Of(string source, Ticket ticket) => new()
    {
        Source = source,
        Kind = "ticket",
        Chain = ticket.Chain,
        Engine = ticket.Engine,
        Encoding = ticket.Encoding,
        Frames = ticket.Frames,
        TrimDb = ticket.TrimDb,
        Tracks = ticket.Tracks,
        Impulses = ticket.Impulses,
        Prints = ticket.Prints,
    };

    public static Made Of(string source, PrintPart part, RecordedPrint? recorded) => new()
    {
        Source = source,
        Kind = "print",
        Chain = part.Chain,
        Number = part.Number,
        Engine = part.Engine,
        Encoding = part.Encoding,
        Frames = part.Frames,
        TrimDb = part.TrimDb,
        Tracks = part.Tracks,
        Impulses = part.Impulses,
        Prints = recorded is null ? [] : [recorded],
    };

    /// <summary>The same with the new names of tracks, impulses and buses.</summary>
    public Made In(IReadOnlyList<Rename> renames) => this with
    {
        Chain = Renames.In(Chain, renames),
        Tracks = Renames.In(Tracks, renames, RenamedKind.Track),
        Impulses = Renames.In(Impulses, renames, RenamedKind.Impulse),
    };

    /// <summary>The same cut down to one print; null when there is no such print.</summary>
    public Made? Only(int number)
    {
        if (Number is not null)
        {
            return Number == number ? this : null;
        }

        var target = PrintSelection.Of(Chain, []).All.FirstOrDefault(t => t.Number == number);
        if (target is null)
        {
            return null;
        }

        var part = ChainPart.Of(Chain, target);
        var tracks = part.Tracks.Select(t => t.Name).ToHashSet(StringComparer.Ordinal);
        var impulses = part.Impulses.Select(i => i.Name).ToHashSet(StringComparer.Ordinal);
        return this with
        {
            Chain = part,
            Number = number,
            Tracks = Tracks?.Where(i => tracks.Contains(i.Name)).ToList(),
            Impulses = Impulses?.Where(i => impulses.Contains(i.Name)).ToList(),
            Prints = [.. Prints.Where(p => p.Number == number)],
        };
    }
}
