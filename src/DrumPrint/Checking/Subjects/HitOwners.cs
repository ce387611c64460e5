using DrumPrint.Checking.Takes;
using DrumPrint.Dsp.Alignment;

namespace DrumPrint.Checking.Subjects;

/// <summary>Tells whose hit it is that a close microphone hears: the one's whose own loud hits it comes nearest to.</summary>
internal sealed class HitOwners
{
    private const int Reference = 2; // the third loudest, so that one accident does not set it
    private const double MarginDb = 2;
    private const double BeforeS = 0.002;
    private const double AfterS = 0.012;

    private readonly IReadOnlyList<(CheckedTake Take, string Drum, double ReferencePower)> _close;

    public HitOwners(IEnumerable<CheckedTake> takes) =>
        _close = [.. takes.Where(t => t.IsClose && t.Figures is { Hits.Hits.Count: > Reference }).Select(t => (t, Drum(t), ReferencePower(t.Figures!)))];

    /// <summary>A word for the drum a close microphone stands at; its other microphones have the same.</summary>
    public static string Drum(CheckedTake take) => take.Role switch
    {
        TakeRole.Kick => "kick",
        TakeRole.Snare or TakeRole.SnareUnder => "snare",
        TakeRole.Hat => "hat",
        _ => $"tom {Tom(take.Name)}",
    };

    /// <summary>Hits of a drum in one of its microphones, in order of time.</summary>
    public IReadOnlyList<Hit> Of(CheckedTake take) => [.. take.Figures!.Hits.Hits.Where(h => IsOwn(take, (double)h.Frame / take.Figures.RateHz))];

    /// <summary>The loud ones among them: within 10 dB of the third loudest.</summary>
    public IReadOnlyList<Hit> Loud(CheckedTake take)
    {
        var own = Of(take);
        var mark = own.Select(h => h.Level).OrderDescending().ElementAtOrDefault(Math.Min(Reference, own.Count - 1)) * 0.3162;
        return [.. own.Where(h => h.Level >= mark)];
    }

    /// <summary>Whether what a close microphone hears at a time is its own drum.</summary>
    public bool IsOwn(CheckedTake take, double atS)
    {
        var drum = Drum(take);
        var own = _close.FirstOrDefault(c => c.Take == take);
        if (own.Take is null)
        {
            return false;
        }

        var mine = Relative(own, atS);
        return _close.Where(c => c.Drum != drum).All(c => Relative(c, atS) < mine - MarginDb);
    }

    private static double Relative((CheckedTake Take, string Drum, double ReferencePower) close, double atS) =>
        TakeFigures.PowerDb(close.Take.Figures!.Power(atS - BeforeS, atS + AfterS) / close.ReferencePower);

    private static double ReferencePower(TakeFigures figures)
    {
        var powers = figures.Hits.Hits.Select(h => figures.Power(((double)h.Frame / figures.RateHz) - BeforeS, ((double)h.Frame / figures.RateHz) + AfterS)).OrderDescending().Take(Reference + 1).ToList();
        return Math.Max(1e-12, powers[^1]);
    }

    private static string Tom(string name)
    {
        var words = name.ToLowerInvariant().Split([' ', '_', '-', '.'], StringSplitOptions.RemoveEmptyEntries).Where(w => !w.All(char.IsDigit)).ToList();
        var first = words.FirstOrDefault() ?? name;
        return first.StartsWith("floor", StringComparison.Ordinal) ? "floor" : first.StartsWith("rack", StringComparison.Ordinal) ? "rack" : string.Join(' ', words.Where(w => w is not ("under" or "bottom" or "btm" or "top")));
    }
}
