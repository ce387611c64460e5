using DrumPrint.Dsp.Numerics;
using DrumPrint.Language;

namespace DrumPrint.Comparing.Measuring;

/// <summary>How both sides were brought to one level: the louder one is turned down, none is raised.</summary>
/// <param name="Metric">What was matched.</param>
/// <param name="A">A's reading: LUFS, or dBFS of the mean level.</param>
/// <param name="B">B's reading before matching.</param>
/// <param name="OffsetDb">What B's level has to gain on A's.</param>
/// <param name="TrimDb">What it is to gain by hand on top.</param>
/// <param name="LeftOverDb">B's reading after matching, trim aside, less A's; measured, not worked out.</param>
public sealed record Matching(LevelMatch Metric, double A, double B, double OffsetDb, double TrimDb, double LeftOverDb)
{
    private const int Tries = 4;
    private const double Enough = 1e-9;
    private const double WorthSayingDb = 0.005;

    /// <summary>Level given to A, in the figures and in listening, trim included; 0 or less.</summary>
    public double LevelOfADb => Math.Min(0, -(OffsetDb + TrimDb));

    /// <summary>Level given to B; 0 or less.</summary>
    public double LevelOfBDb => Math.Min(0, OffsetDb + TrimDb);

    /// <summary>Which side is turned down, and by how much.</summary>
    public string TurnedDown => Math.Abs(OffsetDb + TrimDb) < WorthSayingDb
        ? "nothing had to be turned down"
        : $"{(LevelOfADb < 0 ? "A" : "B")} is turned down by {Words.Number(Math.Abs(OffsetDb + TrimDb), 2)} dB";

    /// <summary>Linear gain of B against A, trim included.</summary>
    internal double Gain => Decibels.ToGain(OffsetDb + TrimDb);

    /// <summary>Matches B to A. A passage without a loudness reading is matched by its mean level, a silent one not at all.</summary>
    internal static Matching Of(Sound a, Sound b, LevelMatch asked, double trimDb)
    {
        var (sideA, sideB) = Sound.Together(a, b);
        foreach (var metric in asked == LevelMatch.Loudness ? [LevelMatch.Loudness, LevelMatch.Rms] : new[] { asked })
        {
            var (levelA, levelB) = (Read(sideA, metric), Read(sideB, metric));
            if (!double.IsFinite(levelA) || !double.IsFinite(levelB))
            {
                continue;
            }

            if (metric == LevelMatch.TrueLevel)
            {
                return new Matching(metric, levelA, levelB, 0, trimDb, levelB - levelA);
            }

            // The gates of the loudness meter may open elsewhere at another level, so it is measured again.
            var offset = levelA - levelB;
            double LeftOver() => Read(sideB.Times(Decibels.ToGain(offset)), metric) - levelA;
            var left = LeftOver();
            for (var i = 0; i < Tries && double.IsFinite(left) && Math.Abs(left) > Enough; i++)
            {
                offset -= left;
                left = LeftOver();
            }

            return new Matching(metric, levelA, levelB, offset, trimDb, left);
        }

        return new Matching(LevelMatch.TrueLevel, double.NegativeInfinity, double.NegativeInfinity, 0, trimDb, 0);
    }

    private static double Read(Sound sound, LevelMatch metric) =>
        metric == LevelMatch.Rms ? Levels.Db(sound.Power) : SideMeasures.Loudness(sound);
}
