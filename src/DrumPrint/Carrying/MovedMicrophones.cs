using DrumPrint.Aligning;
using DrumPrint.Chains;
using DrumPrint.Dsp.Alignment;
using DrumPrint.Files;
using DrumPrint.Language;
using DrumPrint.Session;

namespace DrumPrint.Carrying;

/// <summary>Tells which microphones stand elsewhere in the new session than in the old one.</summary>
internal static class MovedMicrophones
{
    // Some 5 cm of air: less is how a drum was hit. Common practice, no source.
    private const double LeastMs = 0.15;

    /// <summary>Those that moved, and those that were turned over, in sentences.</summary>
    /// <param name="before">The old chain.</param>
    /// <param name="now">The new one, of the same names.</param>
    /// <param name="found">Tracks that have their file in the new session.</param>
    /// <param name="reading">Which files they may name.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancel">Stops between blocks.</param>
    /// <returns>The sentences; and why nothing could be told, null where it could.</returns>
    public static (IReadOnlyList<string> Moved, string? Problem) Of(
        Chain before, Chain now, IReadOnlySet<string> found, ReadPolicy reading, Action<string, double> progress, CancellationToken cancel)
    {
        try
        {
            var here = Look(now, found, reading, progress, cancel);
            try
            {
                var there = Look(before, found, reading, progress, cancel);
                return ([.. Rows(here, there).SelectMany(r => Sentences(r.Now, r.Before, before.Song.Title))], null);
            }
            catch (Exception e) when (e is InputException or Audio.AudioFileException)
            {
                return ([.. here.Rows.SelectMany(Off)], $"The takes of {before.Song.Title} cannot be read, so this session was held against the chain's delays alone.");
            }
        }
        catch (Exception e) when (e is InputException or Audio.AudioFileException)
        {
            return ([], $"Whether microphones moved cannot be told: {e.Message}");
        }
    }

    private static AlignmentReport Look(Chain chain, IReadOnlySet<string> found, ReadPolicy reading, Action<string, double> progress, CancellationToken cancel) =>
        Aligner.Look(chain with { Tracks = [.. chain.Tracks.Where(t => found.Contains(t.Name))] }, [], reading, progress, cancel);

    private static IEnumerable<(AlignmentRow Now, AlignmentRow Before)> Rows(AlignmentReport here, AlignmentReport there) =>
        from now in here.Rows
        from before in there.Rows
        where (now.Reference, now.Microphone) == (before.Reference, before.Microphone)
        select (now, before);

    private static IEnumerable<string> Sentences(AlignmentRow now, AlignmentRow before, string song)
    {
        if (now.IsOpposite is { } isOpposite && before.IsOpposite is { } wasOpposite && isOpposite != wasOpposite)
        {
            yield return $"{now.Microphone} is the other way up against {now.Reference} than in {song}.";
        }

        if (now.LaterMs is { } ms && before.LaterMs is { } beforeMs && Math.Abs(ms - beforeMs) is var moved && moved > Math.Max(LeastMs, Spread(now) + Spread(before)))
        {
            var metres = Math.Abs(now.LaterM!.Value - before.LaterM!.Value);
            yield return $"{now.Microphone} hears {now.Reference} {Words.Number(moved, 2)} ms {(ms > beforeMs ? "later" : "earlier")} than in {song}: {Words.Number(metres, 2)} m {(ms > beforeMs ? "farther" : "nearer")}.";
        }
    }

    // Of one drum: over the kit and in the room, distance is part of the sound.
    private static IEnumerable<string> Off(AlignmentRow row)
    {
        if (row.Kind != MicrophoneKind.SameDrum)
        {
            yield break;
        }

        if (row.IsOppositeNow == true)
        {
            yield return $"{row.Microphone} is upside down against {row.Reference} in the new chain.";
        }

        if (row.LeftMs is { } left && Math.Abs(left) > Math.Max(LeastMs, Spread(row)))
        {
            yield return $"{row.Microphone} is {Words.Number(Math.Abs(left), 2)} ms {(left > 0 ? "behind" : "ahead of")} {row.Reference} in the new chain.";
        }
    }

    private static double Spread(AlignmentRow row) => 2000 * row.Found.SpreadFrames / row.Found.RateHz;
}
