using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>Sound that ran into full scale earlier on its way.</summary>
internal sealed class ClippedBefore : CheckRule
{
    public override Rule Rule { get; } = new(
        "C2",
        Severity.Warning,
        "Clipped, then turned down",
        "4 equal samples and more in a row at the file's own highest or lowest value, 3 times and more",
        "Ask for the recording as it was before.")
    {
        PictureS = 0.02,
    };

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Sounds.Where(t => t.Figures!.Peak is > 0.001 and < 0.99))
        {
            var tops = take.Figures!.Channels.SelectMany(c => c.Tops).OrderBy(t => t.Frame).ToList();
            if (tops.Count >= Fewest)
            {
                yield return Found(take.Name, Words.Count(tops.Count, "flat top"), $"The wave is cut flat at {Words.Number(take.Figures.PeakDb)} dBFS in {Words.Count(tops.Count, "place")}: it clipped before it was turned down.") with
                {
                    Count = tops.Count,
                    PlacesS = [.. tops.Select(t => (double)t.Frame / take.Figures.RateHz)],
                };
            }
        }
    }

    private const int Fewest = 3;
}
