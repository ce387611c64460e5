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
        "the last 100 ms above −70 dBFS and above −60 dB against the loudest 100 ms; a fault for rooms, cymbals and reverb",
        "Export or print with a longer tail.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Sounds.Where(t => t.Figures is { MsPower.Length: > 1000, PeakDb: > -80 }))
        {
            var end = take.Figures!.MsPower.Length / 1000.0;
            var last = TakeFigures.PowerDb(take.Figures.Power(end - 0.1, end));
            var loudest = TakeFigures.PowerDb(take.Figures.Powers(100).Max());
            if (last > MostDb && last - loudest > AgainstDb)
            {
                var rings = take.Role is TakeRole.Room or TakeRole.Overhead || (take.Print is { } print && BusTree.IsSpread(subject.Chain!, print.Bus));
                yield return Found(take.Name, $"{Words.Number(last)} dBFS", $"The last 100 ms are at {Words.Number(last)} dBFS, {Words.Number(loudest - last)} dB below the loudest: the tail is cut.", rings ? Severity.Fault : null) with { PlacesS = [end], Value = last };
            }
        }
    }

    private const double MostDb = -70;
    private const double AgainstDb = -60;
}
