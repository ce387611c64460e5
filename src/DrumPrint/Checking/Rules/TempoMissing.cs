using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>The mixer cannot find the bars.</summary>
internal sealed class TempoMissing : CheckRule
{
    public override Rule Rule { get; } = new(
        "H5",
        Severity.Warning,
        "No tempo, or not to the end",
        "no tempo map, or hits after its last bar",
        "Name a tempo map in song.tempo that runs to the last bar.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        if (subject.Chain is null)
        {
            yield break;
        }

        if (subject.Tempo is not { } tempo)
        {
            yield return Found("", "none", "The chain names no tempo map, so no place can be told by its bar.", Severity.Information);
            yield break;
        }

        var end = tempo.SecondsAtBar(tempo.LastBar + 1);
        var last = subject.Raws.Where(t => t.IsClose).SelectMany(t => subject.Owners.Loud(t).Select(h => (double)h.Frame / t.Figures!.RateHz)).DefaultIfEmpty().Max();
        if (last > end + OverS)
        {
            yield return Found("", $"{Words.Number(last - end, 1)} s", $"The tempo map ends with bar {tempo.LastBar} at {Words.Number(end, 1)} s, and the last hit comes {Words.Number(last - end, 1)} s later.") with { PlacesS = [last] };
        }
    }

    private const double OverS = 1;
}
