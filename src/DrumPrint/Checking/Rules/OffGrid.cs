using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>What is played and the bars that the chain names do not fit.</summary>
internal sealed class OffGrid : CheckRule
{
    public override Rule Rule { get; } = new(
        "B6",
        Severity.Warning,
        "The playing is off the tempo map",
        "median distance of kick and snare from the nearest sixteenth over 10 ms, or over 25 ms either way",
        "Check the tempo map, or shift the files to bar 1.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        if (subject.Tempo is not { } tempo)
        {
            yield break;
        }

        var off = new List<double>();
        foreach (var take in subject.Raws.Where(t => t.Role is TakeRole.Kick or TakeRole.Snare))
        {
            foreach (var hit in subject.Owners.Loud(take))
            {
                var seconds = (double)hit.Frame / take.Figures!.RateHz;
                var bar = tempo.BarAtSeconds(seconds);
                if (bar < tempo.LastBar + 1)
                {
                    var stretch = tempo.StretchAt(bar);
                    var step = stretch.SecondsPerBeat * stretch.BeatUnit / 16;
                    var inBar = (bar - Math.Floor(bar)) * stretch.SecondsPerBar;
                    off.Add(inBar - (Math.Round(inBar / step) * step));
                }
            }
        }

        if (off.Count < Fewest)
        {
            yield break;
        }

        var (median, size) = (Median(off), Median([.. off.Select(Math.Abs)]));
        if (Math.Abs(median) > MedianS || size > SpreadS)
        {
            yield return Found("", $"{Words.Signed(1000 * median)} ms, {Words.Number(1000 * size)} ms either way", $"Kick and snare lie {Words.Number(1000 * Math.Abs(median))} ms {(median > 0 ? "after" : "before")} the tempo map's sixteenths in the middle of {off.Count} hits, and {Words.Number(1000 * size)} ms either way.");
        }
    }

    private const int Fewest = 12;
    private const double MedianS = 0.010;
    private const double SpreadS = 0.025;

    private static double Median(List<double> values)
    {
        values.Sort();
        return values[values.Count / 2];
    }
}
