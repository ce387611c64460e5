using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A file ends while it still sounds.</summary>
internal sealed class CutTail : CheckRule
{
    public override Rule Rule { get; } = new(
        "G2",
        Severity.Warning,
        "A tail is cut",
        "the last 100 ms above −70 dBFS and above −60 dB against the loudest 100 ms, and not a floor that has been steady for a second; a fault for rooms, cymbals and reverb",
        "Export or print with a longer tail.")
    {
        PictureS = 3,
    };

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Sounds.Where(t => t.Figures is { MsPower.Length: > 1000, PeakDb: > -80 }))
        {
            var end = EndS(take.Figures!);
            var last = TakeFigures.PowerDb(take.Figures!.Power(end - 0.1, end));
            var loudest = TakeFigures.PowerDb(take.Figures.Powers(100).Max());
            if (last > MostDb && last - loudest > AgainstDb && !IsFloor(take.Figures))
            {
                var rings = take.Role is TakeRole.Room or TakeRole.Overhead || (take.Print is { } print && BusTree.IsSpread(subject.Chain!, print.Bus));
                yield return Found(take.Name, $"{Words.Number(last)} dBFS", $"The last 100 ms are at {Words.Number(last)} dBFS, {Words.Number(loudest - last)} dB below the loudest: the tail is cut.", rings ? Severity.Fault : null) with { PlacesS = [end], Value = last };
            }
        }
    }

    private const double MostDb = -70;
    private const double AgainstDb = -60;
    private const int FloorBlocks = 10;
    private const double FloorFallDb = 0.5; // in half a second; a tail that takes half a minute to die falls faster
    private const double FloorSpreadDb = 2;

    // A tail falls; noise that processors have raised stays where it is.
    private static bool IsFloor(TakeFigures figures)
    {
        List<double> blocks = [.. Enumerable.Range(1, FloorBlocks).Select(i => figures.Power(EndS(figures) - (i / 10.0), EndS(figures) - ((i - 1) / 10.0)))];
        var (last, before) = (blocks.Take(FloorBlocks / 2).Sum(), blocks.Skip(FloorBlocks / 2).Sum());
        return blocks.Min() > 0 && Math.Abs(TakeFigures.PowerDb(before / last)) < FloorFallDb && TakeFigures.PowerDb(blocks.Max() / blocks.Min()) < FloorSpreadDb;
    }

    private static double EndS(TakeFigures figures) => figures.MsPower.Length / 1000.0;
}
