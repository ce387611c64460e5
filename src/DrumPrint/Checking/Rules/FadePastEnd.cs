using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A fade that has no time to end.</summary>
internal sealed class FadePastEnd : CheckRule
{
    public override Rule Rule { get; } = new(
        "G4",
        Severity.Fault,
        "A planned change ends after the file",
        "the end of a ride, its fade included, after the last raw track",
        "Shorten the ride, or bring longer files.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        if (subject.Chain is not { } chain || !subject.Raws.Any())
        {
            yield break;
        }

        var end = subject.Raws.Max(t => (double)t.Info!.Frames / t.Info.SampleRate);
        foreach (var (bus, feed) in chain.Buses.SelectMany(b => b.Feeds.Select(f => (b, f))))
        {
            foreach (var ride in feed.Rides.Where(r => !r.InBars || subject.Tempo is not null))
            {
                var to = (ride.InBars ? subject.Tempo!.SecondsAtBar(ride.To + 1) : ride.To) + (ride.FadeMs / 1000);
                if (to > end + 1e-3)
                {
                    yield return Found(bus.Name, $"{Words.Number(to, 2)} s", $"A ride of '{feed.Source}' ends at {Words.Number(to, 2)} s, and the raw tracks at {Words.Number(end, 2)} s.") with { PlacesS = [to] };
                }
            }
        }
    }
}
