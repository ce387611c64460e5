using DrumPrint.Checking.Takes;
using DrumPrint.Dsp.Alignment;

namespace DrumPrint.Checking.Subjects;

/// <summary>Tells whose hit it is that a close microphone hears: its own drum's, where it is louder than what the other drums spill into it.</summary>
/// <remarks>What spills in is told from the other drums' own microphones, each at the level at which its loud hits usually arrive here. So a hit
/// that falls together with another drum's is still the drum's own. Common practice, no source.</remarks>
internal sealed class HitOwners
{
    private const int Reference = 2; // the third loudest, so that one accident does not set it
    private const double MarginDb = 6;
    private const double LoudDb = -6;
    private const double BeforeS = 0.002;
    private const double AfterS = 0.012;
    private const int SpillPart = 5; // at the louder of its hits this drum may have been hit too
    private const double SameSound = 0.25; // −6 dB there and back: one of the two has not been hit at all

    private readonly IReadOnlyList<Close> _close;
    private readonly Dictionary<CheckedTake, List<IReadOnlyList<(Close Source, double Gain)>>> _spills;

    public HitOwners(IEnumerable<CheckedTake> takes)
    {
        _close = [.. takes.Where(t => t.IsClose && t.Figures is { Hits.Hits.Count: > Reference }).Select(t => new Close(t, Drum(t)))];
        _spills = _close.ToDictionary(c => c.Take, Spills);
    }

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
        if (!_spills.TryGetValue(take, out var spills))
        {
            return false;
        }

        var own = Power(take.Figures!, atS);
        return TakeFigures.PowerDb(own) - TakeFigures.PowerDb(spills.Sum(drum => drum.Min(s => s.Gain * Power(s.Source.Take.Figures!, atS)))) > MarginDb;
    }

    // By drum; of its microphones that counts which hears least, for each hears this drum too.
    private List<IReadOnlyList<(Close Source, double Gain)>> Spills(Close into) =>
        [.. _close.Where(c => c.Drum != into.Drum).Select(c => (Source: c, Gain: Gain(c, into))).Where(s => !IsSilent(s.Source, into, s.Gain)).GroupBy(s => s.Source.Drum, StringComparer.Ordinal).Select(g => (IReadOnlyList<(Close, double)>)[.. g])];

    // A drum that was never hit is heard by its microphone through others alone: then it explains nothing.
    private static bool IsSilent(Close source, Close into, double gain) => gain * Gain(into, source) > SameSound && source.LoudPower < into.LoudPower;

    private static double Gain(Close source, Close into)
    {
        double[] heard = [.. source.Loud.Select(t => Power(into.Take.Figures!, t) / Math.Max(1e-15, Power(source.Take.Figures!, t))).Order()];
        return heard[heard.Length / SpillPart];
    }

    private static double Power(TakeFigures figures, double atS) => figures.Power(atS - BeforeS, atS + AfterS);

    private static string Tom(string name)
    {
        var words = name.ToLowerInvariant().Split([' ', '_', '-', '.'], StringSplitOptions.RemoveEmptyEntries).Where(w => !w.All(char.IsDigit)).ToList();
        var first = words.FirstOrDefault() ?? name;
        return first.StartsWith("floor", StringComparison.Ordinal) ? "floor" : first.StartsWith("rack", StringComparison.Ordinal) ? "rack" : string.Join(' ', words.Where(w => w is not ("under" or "bottom" or "btm" or "top")));
    }

    /// <summary>A close microphone, and the times of its loud hits.</summary>
    private sealed class Close
    {
        public Close(CheckedTake take, string drum)
        {
            (Take, Drum) = (take, drum);
            List<(double AtS, double Power)> hits = [.. take.Figures!.Hits.Hits.Select(h => (double)h.Frame / take.Figures.RateHz).Select(t => (t, HitOwners.Power(take.Figures, t))).OrderByDescending(h => h.Item2)];
            LoudPower = Math.Max(1e-15, hits[Reference].Power);
            Loud = [.. hits.Where((h, i) => i <= Reference || TakeFigures.PowerDb(h.Power / LoudPower) >= LoudDb).Select(h => h.AtS)];
        }

        public CheckedTake Take { get; }

        public string Drum { get; }

        public double LoudPower { get; }

        public IReadOnlyList<double> Loud { get; }
    }
}
