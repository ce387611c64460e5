using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Writing;
using DrumPrint.Dsp.Alignment;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Aligning;

/// <summary>What one track is to be given in the chain.</summary>
/// <param name="Track">The track.</param>
/// <param name="DelayMs">Its delay in all, in ms, to a hundredth; null where that cannot be told or stays.</param>
/// <param name="IsInverted">Whether its polarity is turned over; null where that cannot be told.</param>
public sealed record AlignmentMove(string Track, double? DelayMs, bool? IsInverted)
{
    /// <summary>Works out what lines a track up with the rest of its drum. Its polarity becomes that of the drum's reference. It
    /// waits for the latest microphone on the same side of the drum. One on the other side is turned over first; it is later by
    /// nature.</summary>
    /// <param name="report">What was found.</param>
    /// <param name="chain">The chain.</param>
    /// <param name="track">The track.</param>
    /// <param name="to">A track to line it up with instead, of any place; null for its own drum.</param>
    /// <exception cref="UsageException">Nothing is known of it, or it would have to be earlier.</exception>
    public static AlignmentMove Of(AlignmentReport report, Chain chain, string track, string? to)
    {
        ArgumentNullException.ThrowIfNull(report);
        ArgumentNullException.ThrowIfNull(chain);
        var own = Aligner.Track(chain, track);
        var row = report.Rows.FirstOrDefault(r => r.Track == track && r.Kind == MicrophoneKind.SameDrum);
        var drum = row?.Drum ?? report.Rows.FirstOrDefault(r => r.ReferenceTrack == track)?.Drum;
        if (to is not null)
        {
            Aligner.Track(chain, to);
            drum ??= report.Rows.FirstOrDefault(r => r.Track == to)?.Drum;
        }

        var rows = report.Rows.Where(r => r.Drum == drum).ToList();
        if (rows.Count == 0 || (row is null && rows[0].ReferenceTrack != track))
        {
            throw new UsageException($"Nothing was found of track '{track}': it is no close microphone of a drum that others hear.");
        }

        var (mine, isKnown) = row is null ? (0, true) : (row.Found.DelayMs, row.Found.IsDelayKnown);
        bool? inverted = row is null || row.Polarity == PairPolarity.CannotBeTold
            ? null
            : Aligner.Track(chain, row.ReferenceTrack).IsInverted != (row.Polarity == PairPolarity.Opposite);
        if (!isKnown)
        {
            return new AlignmentMove(track, null, inverted);
        }

        if (to is not null)
        {
            var there = rows.Find(r => r.Track == to);
            var target = rows[0].ReferenceTrack == to ? 0 : there is { Found.IsDelayKnown: true } ? there.Found.DelayMs
                : throw new UsageException($"How much later '{to}' hears the {drum} cannot be told.");
            var late = target - mine + Milliseconds(chain, Aligner.Track(chain, to));
            return late < 0
                ? throw new UsageException(string.Create(CultureInfo.InvariantCulture, $"'{track}' is {-late:0.00} ms later than '{to}' already, and nothing can be moved to before it was played. Delay '{to}' instead: --apply \"{to}\" --to \"{track}\"."))
                : new AlignmentMove(track, Rounded(Math.Max(0, late - Over(chain, own))), inverted);
        }

        var sameSide = rows.Where(r => r.Kind == MicrophoneKind.SameDrum && r.Found.IsDelayKnown && r.Polarity == PairPolarity.Same).Select(r => r.Found.DelayMs).Append(0);
        return new AlignmentMove(track, inverted is not null && row!.Polarity == PairPolarity.Opposite ? Milliseconds(chain, own) - Over(chain, own) : Rounded(Math.Max(0, sameSide.Max() - mine - Over(chain, own))), inverted);
    }

    /// <summary>The chain's text with this in it.</summary>
    /// <param name="utf8">The text.</param>
    /// <param name="chain">The chain it is.</param>
    public byte[] WriteInto(byte[] utf8, Chain chain)
    {
        ArgumentNullException.ThrowIfNull(chain);
        var own = Aligner.Track(chain, Track);
        string[] place = [ChainKeys.Tracks.Key, Track];
        if (IsInverted is { } inverted && inverted != own.IsInverted)
        {
            utf8 = ChainEdit.Set(utf8, place, TrackKeys.File.Key, PolarityKeys.Polarity.Key, inverted ? $"\"{PolarityKeys.Inverted}\"" : $"\"{PolarityKeys.Normal}\"");
        }

        if (DelayMs is { } delay && Math.Abs(delay - (Milliseconds(chain, own) - Over(chain, own))) >= SmallestMs)
        {
            var present = DelayKeys.All.FirstOrDefault(k => ChainEdit.Get(utf8, place, k.Key) is not null) ?? DelayKeys.Milliseconds;
            var amount = present.Unit switch
            {
                Unit.Frames => delay / 1000 * chain.Song.RateHz,
                Unit.Metres => delay / 1000 * PathDelay.SpeedOfSound(chain.Song.TemperatureC),
                _ => delay,
            };
            utf8 = ChainEdit.Set(utf8, place, TrackKeys.File.Key, present.Key, amount.ToString("0.###", CultureInfo.InvariantCulture));
        }

        return utf8;
    }

    // Less than this is within what was written before.
    private const double SmallestMs = 0.0105;

    private static double Rounded(double ms) => Math.Round(ms, 2);

    private static double Milliseconds(Chain chain, Track track)
    {
        var (whole, part) = track.Wait(chain.Song.RateHz, chain.Song.TemperatureC).Parts(chain.Song.RateHz, chain.Song.TemperatureC);
        return 1000 * (whole + part) / chain.Song.RateHz;
    }

    // What is passed over of a latency in whole frames and is more than the latency; the delay in the chain does without it.
    private static double Over(Chain chain, Track track) => (1000.0 * track.SkippedFrames(chain.Song.RateHz) / chain.Song.RateHz) - track.LatencyMs;
}
