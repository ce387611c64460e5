using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Diff;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Delivering;

/// <summary>What stands beside other songs of an album: length, level and recipe, out of the ticket of the prints.</summary>
/// <param name="Ticket">The ticket.</param>
public sealed record SongFigures(Ticket Ticket)
{
    // What differs from song to song without being of the recipe.
    private static readonly string[] OfTheSong = ["song", "tempo map", "chain", "session", "delivery", "signed off", "engine", "run"];

    public Song Song => Ticket.Chain.Song;

    /// <summary>Length of every print, in seconds.</summary>
    public double LengthS => (double)Ticket.Frames / Song.RateHz;

    /// <summary>Number of prints of a kind.</summary>
    public int Count(PrintKind kind) => Ticket.Prints.Count(p => p.Kind == kind);

    /// <summary>Loudness of the rough; null without one, and where it is silent.</summary>
    public double? RoughLufs => Finite(First(PrintKind.Rough)?.IntegratedLufs);

    /// <summary>Loudness of the rough through the drum bus; null without one, and where it is silent.</summary>
    public double? RoughWithBusLufs => Finite(First(PrintKind.RoughWithBus)?.IntegratedLufs);

    /// <summary>Highest true peak of any print; null where all are silent.</summary>
    public double? TruePeakDbtp => Ticket.Prints.Where(p => p.Kind != PrintKind.Click).Select(p => Finite(p.TruePeakDbtp)).Max();

    /// <summary>Word length of the prints, as a chain says it.</summary>
    public string Bits => EncodingKeys.Word(Ticket.Encoding);

    /// <summary>The figures of a song that is printed as its chain says.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="prints">Where its prints lie; null for the folder beside it.</param>
    /// <exception cref="UsageException">The prints are not those of the chain; the message says what to do.</exception>
    /// <exception cref="TicketException">The ticket cannot be read.</exception>
    public static SongFigures Of(Chain chain, string? prints)
    {
        ArgumentNullException.ThrowIfNull(chain);
        return new SongFigures(ProvedPrints.Find(chain, prints).Ticket);
    }

    /// <summary>In how many values the recipe differs from that of another song: buses, processors, levels, delays, but no raw file, tempo or title.</summary>
    public int DifferencesFrom(SongFigures other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return ChainChanges.Of(Made.Of("a", Bare(other)), Made.Of("b", Bare(this))).Count(c => !OfTheSong.Contains(c.Subject));
    }

    // Raw files are other ones in each song.
    private static Ticket Bare(SongFigures song) => song.Ticket with
    {
        Tracks = [],
        Impulses = [],
        Chain = song.Ticket.Chain with
        {
            Tracks = [.. song.Ticket.Chain.Tracks.Select(t => t with { File = "raw", Punched = PunchedFiles.None, Channel = null, At = null, Notes = null })],
            Prints = [.. song.Ticket.Chain.Prints.Select(p => p with { Notes = null })],
            DrumBusNotes = null,
        },
    };

    private RecordedPrint? First(PrintKind kind) => Ticket.Prints.FirstOrDefault(p => p.Kind == kind);

    private static double? Finite(double? value) => value is { } x && double.IsFinite(x) ? x : null;
}
