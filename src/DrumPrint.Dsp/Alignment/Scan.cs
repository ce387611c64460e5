namespace DrumPrint.Dsp.Alignment;

/// <summary>The whitened correlation all through a search, and how clearly its highest value stands.</summary>
/// <param name="BestFrames">Delay of the highest value of either sign, to a quarter of a frame.</param>
/// <param name="Sign">1, or −1 where it points down.</param>
/// <param name="Rival">The highest value elsewhere, of either sign, against it.</param>
/// <param name="OtherSign">The highest value of the other sign anywhere, against it.</param>
internal sealed record Scan(double BestFrames, int Sign, double Rival, double OtherSign)
{
    private const double HopS = 0.003;
    private const double PeakWidthS = 0.0003;

    public static Scan Of(
        WhitenedCorrelation correlation, HitWindow window, HitSpectrum[] own, FrameReader other, IReadOnlyList<long> hits, int rateHz, AlignmentSearch search)
    {
        var (earliest, latest, hop) = ((int)(search.EarliestMs * rateHz / 1000), (int)(search.LatestMs * rateHz / 1000), (int)(HopS * rateHz));
        const int finer = WhitenedCorrelation.Finer;
        var line = new double[(finer * (latest - earliest)) + 1];
        for (var later = earliest; later <= latest + hop; later += hop)
        {
            correlation.Take(window, own, other, hits, later);
            for (var q = -finer * hop; q <= finer * hop; q++)
            {
                var place = q + (finer * (later - earliest));
                if (place >= 0 && place < line.Length && Math.Abs(correlation.At(q)) > Math.Abs(line[place]))
                {
                    line[place] = correlation.At(q);
                }
            }
        }

        var guard = (int)(finer * PeakWidthS * rateHz);
        foreach (var frames in search.NotAtFrames)
        {
            var centre = (int)(finer * (frames - earliest));
            for (var i = Math.Max(0, centre - (guard / 2)); i <= Math.Min(line.Length - 1, centre + (guard / 2)); i++)
            {
                line[i] = 0;
            }
        }

        var best = 0;
        for (var i = 1; i < line.Length; i++)
        {
            best = Math.Abs(line[i]) > Math.Abs(line[best]) ? i : best;
        }

        var height = line[best];
        if (height == 0)
        {
            return new Scan(0, 1, 1, 1);
        }

        var (rival, otherSign) = (0.0, 0.0);
        for (var i = 0; i < line.Length; i++)
        {
            rival = Math.Abs(i - best) > guard ? Math.Max(rival, Math.Abs(line[i] / height)) : rival;
            otherSign = Math.Max(otherSign, -line[i] / height);
        }

        return new Scan(((double)best / finer) + earliest, Math.Sign(height), rival, otherSign);
    }
}
