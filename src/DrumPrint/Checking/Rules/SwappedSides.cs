using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>Left and right are not where they should be.</summary>
internal sealed class SwappedSides : CheckRule
{
    public override Rule Rule { get; } = new(
        "E3",
        Severity.Warning,
        "Sides swapped",
        "a print fits its raw tracks better with left and right exchanged; or pairs disagree about which side hears the hat first",
        "Exchange the sides, or the pans in the chain.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var print in subject.Delivered.Where(t => t is { Print: not null, Info.Channels: 2 } && t.Figures!.RateHz == subject.RateHz && !BusTree.IsSpread(subject.Chain!, t.Print!.Bus)))
        {
            if (LinearMix.Of(subject.Chain!, print.Print!.Bus, subject.RawsByName) is { } mix && Fit(subject, print, mix) is { } fit && fit.Swapped > fit.Straight + Clear)
            {
                yield return Found(print.Name, $"likeness {Words.Number(fit.Swapped, 2)} swapped, {Words.Number(fit.Straight, 2)} as it is", "The print is like its raw tracks with left and right exchanged.");
            }
        }

        if (subject.First(TakeRole.Hat) is not { } hat)
        {
            yield break;
        }

        var sides = subject.RawPairs.Select(p => (Pair: p, L: subject.Pairs.Of(hat, p.Left), R: subject.Pairs.Of(hat, p.Right)))
            .Where(p => p.L.IsDelayKnown && p.R.IsDelayKnown && Math.Abs(p.R.DelayFrames - p.L.DelayFrames) > LeastS * subject.RateHz)
            .Select(p => (p.Pair, Side: Math.Sign(p.R.DelayFrames - p.L.DelayFrames)))
            .ToList();
        var main = sides.FirstOrDefault(s => s.Pair.Left.Role == TakeRole.Overhead);
        foreach (var (pair, _) in sides.Where(s => main.Side != 0 && s.Side != main.Side))
        {
            yield return Found(pair.Left.Name, "the other side first", $"{pair.Left.Name} and {pair.Right.Name} hear the hat from the other side than the overheads do.");
        }
    }

    private const double Clear = 0.1;
    private const double LeastS = 0.00015;
    private const int Places = 32;
    private const int Frames = 2048;

    private static (double Straight, double Swapped)? Fit(CheckSubject subject, CheckedTake print, LinearMix mix)
    {
        var hits = mix.Paths.MaxBy(p => p.Take.Figures!.Peak)!.Take.Figures!.Hits.Hits.OrderByDescending(h => h.Level).Take(Places).ToList();
        var (left, right) = (mix.Reader(subject.Windows, 0), mix.Reader(subject.Windows, 1));
        var (l, r, a, b) = (new double[Frames], new double[Frames], new double[Frames], new double[Frames]);
        var (straight, swapped, count) = (0.0, 0.0, 0);
        foreach (var hit in hits)
        {
            left(hit.Frame, l);
            right(hit.Frame, r);
            subject.Windows.Channel(print, 0)(hit.Frame, a);
            subject.Windows.Channel(print, 1)(hit.Frame, b);
            straight += Likeness(l, a) + Likeness(r, b);
            swapped += Likeness(l, b) + Likeness(r, a);
            count += 2;
        }

        return count == 0 ? null : (straight / count, swapped / count);
    }

    private static double Likeness(double[] a, double[] b)
    {
        var (aa, ab, bb) = (0.0, 0.0, 0.0);
        for (var n = 0; n < a.Length; n++)
        {
            (aa, ab, bb) = (aa + (a[n] * a[n]), ab + (a[n] * b[n]), bb + (b[n] * b[n]));
        }

        return aa * bb > 0 ? Math.Abs(ab) / Math.Sqrt(aa * bb) : 0;
    }
}
