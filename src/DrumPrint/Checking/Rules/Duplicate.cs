using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>One recording under two names.</summary>
internal sealed class Duplicate : CheckRule
{
    public override Rule Rule { get; } = new(
        "D3",
        Severity.Fault,
        "A file repeats another",
        "the same samples; or, at the best gain, less than −90 dB of difference",
        "Find the file that was meant.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var group in new[] { subject.Raws.Where(t => t.Figures!.Peak > 1e-4).ToList(), subject.Delivered.Where(t => t.Kind != TakeKind.Click && t.Figures!.Peak > 1e-4).ToList() })
        {
            for (var i = 0; i < group.Count; i++)
            {
                for (var j = 0; j < i; j++)
                {
                    if (Path.GetFullPath(group[i].Path) == Path.GetFullPath(group[j].Path) && group[i].Splice?.Key == group[j].Splice?.Key && group[i].Channel == group[j].Channel)
                    {
                        yield return Found(group[i].Name, group[i].FileName, $"{group[i].Name} and {group[j].Name} are one {(group[i].Channel is null ? "file" : "channel of one file")}.");
                        break;
                    }

                    if (group[i].Figures!.Likeness == group[j].Figures!.Likeness)
                    {
                        yield return Found(group[i].Name, "the same samples", $"{Start(group[i])} holds the same samples as {group[j].Place}.");
                        break;
                    }

                    if (Left(subject, group[i], group[j]) is { } left && left < MostDb)
                    {
                        yield return Found(group[i].Name, $"{Words.Number(left)} dB", $"{Start(group[i])} is {group[j].Place} at another level: {Words.Number(left)} dB of difference is left.");
                        break;
                    }
                }
            }
        }
    }

    /// <summary>Files that are alike wherever they are looked at are then compared whole. A packed file has no places to look at quickly, so it is
    /// left to the check itself.</summary>
    public override IEnumerable<Finding> FindQuickly(CheckSubject subject)
    {
        var raws = subject.HeadedRaws.Where(t => t.Info!.Frames > 0 && !t.FileName.EndsWith(".flac", StringComparison.OrdinalIgnoreCase)).ToList();
        foreach (var alike in raws.GroupBy(t => (t.Info!.Frames, t.Info.Channels, t.Info.SampleRate, Samples: Looked(subject, t))).Where(g => g.Key.Samples.Length > 0 && g.Count() > 1))
        {
            foreach (var twin in alike.Skip(1).Where(t => Path.GetFullPath(t.Path) != Path.GetFullPath(alike.First().Path) && Whole(t) == Whole(alike.First())))
            {
                yield return Found(twin.Name, "the same samples", $"{twin.FileName} holds the same samples as {alike.First().FileName}.");
            }
        }
    }

    // Sum of a few windows; empty where they hold nothing.
    private static string Looked(CheckSubject subject, CheckedTake take)
    {
        var samples = new double[Places * Frames];
        try
        {
            var read = subject.Windows.Middle(take);
            for (var place = 0; place < Places; place++)
            {
                read(take.Info!.Frames * (place + 1) / (Places + 2), samples.AsSpan(place * Frames, Frames));
            }
        }
        catch (Audio.AudioFileException)
        {
            return "";
        }

        return Array.TrueForAll(samples, x => x == 0) ? "" : Convert.ToHexString(System.IO.Hashing.XxHash128.Hash(System.Runtime.InteropServices.MemoryMarshal.AsBytes(samples.AsSpan())));
    }

    private static UInt128? Whole(CheckedTake take)
    {
        using var reader = take.Open(Audio.AudioHashes.Likeness);
        reader.Skip(reader.Info.Frames);
        return reader.Likeness;
    }

    private static string Start(CheckedTake take) => take.Channel is null ? take.FileName : "C" + take.Place[1..];

    private const double MostDb = -90;
    private const int Places = 8;
    private const int Frames = 4096;

    // Asked at a few loud places; most pairs differ at the first.
    private static double? Left(CheckSubject subject, CheckedTake a, CheckedTake b)
    {
        if (a.Figures!.Frames != b.Figures!.Frames || a.Channels != b.Channels || a.Info!.SampleRate != b.Info!.SampleRate)
        {
            return null;
        }

        var hits = a.Figures!.Hits.Hits;
        var (one, two) = (new double[Frames], new double[Frames]);
        var (aa, ab, bb) = (0.0, 0.0, 0.0);
        for (var place = 0; place < Math.Min(Places, hits.Count); place++)
        {
            var frame = hits[(int)((long)place * hits.Count / Math.Min(Places, hits.Count))].Frame;
            subject.Windows.Middle(a)(frame, one);
            subject.Windows.Middle(b)(frame, two);
            for (var n = 0; n < Frames; n++)
            {
                (aa, ab, bb) = (aa + (one[n] * one[n]), ab + (one[n] * two[n]), bb + (two[n] * two[n]));
            }

            if (aa * bb > 0 && ab * ab / aa / bb < 0.999)
            {
                return null;
            }
        }

        return aa * bb > 0 ? TakeFigures.PowerDb(Math.Max(1e-16, 1 - (ab * ab / aa / bb))) : null;
    }
}
