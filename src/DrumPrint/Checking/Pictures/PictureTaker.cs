using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;

namespace DrumPrint.Checking.Pictures;

/// <summary>Takes the pictures of what was found, while the files are still at hand.</summary>
internal static class PictureTaker
{
    private const int Columns = 480;
    private const double BeforePart = 0.25;
    private const double LowestDb = -90;

    public static CheckPictures Of(CheckSubject subject, IReadOnlyList<Finding> findings, CancellationToken cancel)
    {
        var files = new Dictionary<string, FindingPicture>(StringComparer.Ordinal);
        var places = new List<IReadOnlyList<FindingPicture>>();
        foreach (var finding in findings)
        {
            cancel.ThrowIfCancellationRequested();
            var take = Take(subject, finding.Track);
            places.Add(take is null ? [] : [.. finding.PlacesS.Take(CheckPictures.MostPlaces).Select(p => Place(subject, take, p, finding.Rule.PictureS))]);
            if (take is not null && finding.Track.Length > 0 && !files.ContainsKey(finding.Track))
            {
                files.Add(finding.Track, Whole(take, [.. findings.Where(f => f.Track == finding.Track).SelectMany(f => f.PlacesS).Distinct().Order()]));
            }
        }

        return new CheckPictures(places, files);
    }

    // A bus is shown by the print that is made of it, or by the first raw track that feeds it.
    private static CheckedTake? Take(CheckSubject subject, string track)
    {
        var heard = subject.Takes.Where(t => t.Figures is not null).ToList();
        return heard.FirstOrDefault(t => t.Name == track)
            ?? heard.FirstOrDefault(t => t.Print?.Bus == track)
            ?? (subject.Chain is { } chain ? BusTree.Above(chain, track).SelectMany(b => b.Feeds).Select(f => subject.RawsByName.GetValueOrDefault(f.Source)).FirstOrDefault(t => t?.Figures is not null) : null);
    }

    private static FindingPicture Place(CheckSubject subject, CheckedTake take, double atS, double spanS)
    {
        var rate = take.Figures!.RateHz;
        var endS = (double)take.Figures.Frames / rate;
        var fromS = Math.Max(0, Math.Min(atS - (BeforePart * spanS), endS - ((1 - BeforePart) * spanS)));
        var toS = fromS + spanS;
        var samples = new double[(int)(spanS * rate)];
        var lanes = new List<(float[] Low, float[] High)>();
        for (var channel = 0; channel < Math.Min(2, take.Channels); channel++)
        {
            subject.Windows.Channel(take, channel)((long)(fromS * rate), samples);
            lanes.Add(Columned(samples));
        }

        return Scaled(take.FileName, fromS, toS, [atS], lanes);
    }

    // By the mean level of each stretch, as it was measured in passing.
    private static FindingPicture Whole(CheckedTake take, IReadOnlyList<double> marks)
    {
        var powers = take.Figures!.MsPower;
        var high = new float[Math.Min(Columns, Math.Max(1, powers.Length))];
        for (var i = 0; i < powers.Length; i++)
        {
            var column = (int)((long)i * high.Length / powers.Length);
            high[column] = Math.Max(high[column], (float)Math.Sqrt(2 * powers[i]));
        }

        return Scaled(take.FileName, 0, (double)take.Figures.Frames / take.Figures.RateHz, marks, [([.. high.Select(h => -h)], high)]);
    }

    private static (float[] Low, float[] High) Columned(double[] samples)
    {
        var columns = Math.Min(Columns, samples.Length);
        var (low, high) = (new float[columns], new float[columns]);
        Array.Fill(low, float.PositiveInfinity);
        Array.Fill(high, float.NegativeInfinity);
        for (var n = 0; n < samples.Length; n++)
        {
            var column = (int)((long)n * columns / samples.Length);
            (low[column], high[column]) = (Math.Min(low[column], (float)samples[n]), Math.Max(high[column], (float)samples[n]));
        }

        return (low, high);
    }

    private static FindingPicture Scaled(string file, double fromS, double toS, IReadOnlyList<double> marks, List<(float[] Low, float[] High)> lanes)
    {
        var top = Math.Max((float)Dsp.Numerics.Decibels.ToGain(LowestDb), lanes.Max(l => Math.Max(l.High.Max(), -l.Low.Min())));
        return new FindingPicture(file, fromS, toS, marks, TakeFigures.Db(top), [.. lanes.Select(l => new WaveLane([.. l.Low.Select(x => x / top)], [.. l.High.Select(x => x / top)]))]);
    }
}
