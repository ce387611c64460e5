using DrumPrint.Chains;
using DrumPrint.Delivering.Sheet;
using DrumPrint.Language;
using DrumPrint.Tickets;

namespace DrumPrint.Archiving;

/// <summary>The page that somebody opens first, in ten years.</summary>
internal static class ReadFirst
{
    /// <param name="ticket">What was printed.</param>
    /// <param name="chain">Where the chain lies in the archive.</param>
    /// <param name="build">Which build made the archive; null names the version alone.</param>
    public static string Text(Ticket ticket, string chain, string? build)
    {
        var song = ticket.Chain.Song;
        var prints = $"{Folder(chain)}/{Session.PrintFileName.Folder}";
        return SheetText.Of(new SheetDocument(
            $"{song.Title}, version {Show.Number(song.Version)}: everything that made its drum prints",
            $"Prints made by DrumPrint {ticket.Engine}; put away by DrumPrint {build ?? EngineVersion.Text}",
            [
                new HeadingBlock("What lies here"),
                new ListBlock(
                [
                    $"{chain}: the chain, a text that says all that was done. Raw tracks, impulses and tempo map lie where it names them.",
                    $"{prints}: the prints, and the ticket with the hash of everything that went in and came out.",
                    "MAKE-AGAIN.txt: the same in plain words, with every value and formula, for other tools.",
                    "conformance.md: how near each processor of this version comes to its published source.",
                    "SHA256SUMS: the hash of every file here.",
                ]),
                new HeadingBlock("Whether all is as it was"),
                new TextBlock("sha256sum -c SHA256SUMS"),
                new HeadingBlock("To make the same prints again, bit for bit"),
                new TextBlock($"drumprint reprint {prints}"),
                new TextBlock("Later versions of DrumPrint hold the same revisions of every processor, and give the same bytes. The ticket names the version that made them."),
                new HeadingBlock("To print it another way"),
                new TextBlock($"Copy the folder {Folder(chain)}, change the chain, and print: drumprint print {chain}"),
                new HeadingBlock("Formats"),
                new TextBlock("Sound is WAV, AIFF or FLAC, each an open format; WAV files are RIFF, RF64 or BW64 (EBU Tech 3306, ITU-R BS.2088). Chain, ticket and tempo map are JSON (RFC 8259); a chain may hold comments. The hashes are SHA-256 (FIPS 180-4)."),
            ]));
    }

    private static string Folder(string place) => place[..place.LastIndexOf('/')];
}
