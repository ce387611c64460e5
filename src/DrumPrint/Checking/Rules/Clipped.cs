using DrumPrint.Audio;
using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>Sound that has run into full scale.</summary>
internal sealed class Clipped : CheckRule
{
    public override Rule Rule { get; } = new(
        "C1",
        Severity.Fault,
        "Clipped",
        "3 samples and more in a row at 0.99 of full scale; in raw files a warning",
        "Turn the source down and record or print again; where it is meant, sign it off.")
    {
        PictureS = 0.02,
    };

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Sounds.Where(t => t.Figures!.Channels.Any(c => c.ClipCount > 0) && !(t.Info!.Encoding.IsFloat() && t.Figures.Peak > 1.001)))
        {
            var runs = take.Figures!.Channels.SelectMany(c => c.Clips).OrderBy(c => c.Frame).ToList();
            var count = take.Figures.Channels.Sum(c => c.ClipCount);
            yield return Found(take.Name, Words.Count(count, "run"), $"The file is clipped in {Words.Count(count, "place")}, for {runs.Max(r => r.Frames)} samples at the longest.", take.IsRaw ? Severity.Warning : null) with
            {
                Count = count,
                PlacesS = [.. runs.Select(r => (double)r.Frame / take.Figures.RateHz)],
                Value = count,
            };
        }
    }
}
