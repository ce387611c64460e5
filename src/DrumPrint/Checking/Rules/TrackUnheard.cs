using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A recording that nobody will hear.</summary>
internal sealed class TrackUnheard : CheckRule
{
    public override Rule Rule { get; } = new(
        "J1",
        Severity.Warning,
        "A track reaches no print",
        "no way from the track to a file",
        "Feed it to a bus, or take it out of the chain.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        if (subject.Chain is { } chain)
        {
            var heard = BusTree.Heard(chain);
            foreach (var track in chain.Tracks.Where(t => !heard.Contains(t.Name)))
            {
                yield return Found(track.Name, "no way", "Nothing of this track is heard in any file.");
            }
        }
    }
}
