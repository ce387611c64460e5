using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Files;
using DrumPrint.Planning;
using DrumPrint.Session;

namespace DrumPrint.Reprinting;

/// <summary>Refuses a length that no print of its raw files can have: a render of it would fill the disk.</summary>
/// <remarks>The bound of a ticket is where its raw tracks end and the longest tail that its chain allows, up to a whole second. A print carries
/// only its own part of the chain, and other tracks may have made its session longer, so it may also be as long as the file is.</remarks>
internal static class LengthBound
{
    /// <summary>What is wrong, in sentences; null when the length is possible.</summary>
    /// <param name="job">What is to be made again.</param>
    /// <param name="chain">Its chain, as it is rendered.</param>
    /// <param name="places">Where its raw files are, by the path the chain gives.</param>
    /// <param name="starts">Where files of one track begin in it.</param>
    /// <param name="reading">Which files it may name.</param>
    /// <exception cref="InputException">A raw file does not fit.</exception>
    public static string? Trouble(ReprintJob job, Chain chain, IReadOnlyDictionary<string, string> places, IReadOnlyDictionary<(string Track, string File), long> starts, ReadPolicy reading)
    {
        var planner = new PlanBuilder(chain, SessionInputs.Open(chain, reading, places, starts), new PrintRun.WholeSong(PrintSelection.Of(chain, [])), job.Encoding);
        if (job.Frames <= planner.Cap || (!job.IsOfTicket && job.Frames <= Held(job)))
        {
            return null;
        }

        var (says, raw, most) = (Seconds(job.Frames), Seconds(planner.RawEnd), Seconds(planner.Cap));
        var held = job.IsOfTicket ? "" : $", and the file itself holds {Seconds(Held(job))}";
        var advice = job.IsOfTicket ? "" : " If the print was cut short, give the ticket.";
        return $"{Path.GetFileName(job.Source)} says that it is {says} long. Its raw tracks end at {raw}, and with the longest tail that its chain allows nothing of it is longer than {most}{held}. It was changed, or the raw files were, so it was not made again.{advice}";

        string Seconds(long frames) => FormattableString.Invariant($"{(double)frames / job.Chain.Song.RateHz:0.###} s");
    }

    private static long Held(ReprintJob job)
    {
        if (job.Prints is not [{ Path: { } path }])
        {
            return 0;
        }

        using var reader = AudioReader.Open(path, AudioHashes.None);
        return reader.Info.Frames;
    }
}
