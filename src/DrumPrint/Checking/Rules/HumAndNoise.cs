using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>What a microphone hears while nobody plays.</summary>
internal sealed class HumAndNoise : CheckRule
{
    public override Rule Rule { get; } = new(
        "C9",
        Severity.Information,
        "Hum or noise",
        "50 or 60 Hz or their harmonics 12 dB above their neighbours and above −65 dBFS in the gaps; gaps of a close microphone above −55 dBFS",
        "Look for the cable or lamp before the next take.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var take in subject.Raws.Where(t => t.Figures!.Peak > 1e-4 && t.Info!.Frames > 2L * t.Info.SampleRate))
        {
            var gaps = MeanSpectrum.Quiet(take, subject.Windows, Places, Points);
            foreach (var mains in Mains)
            {
                var worst = Enumerable.Range(1, Harmonics).Select(k => mains * k).MaxBy(f => Above(gaps, f));
                var level = gaps.LevelDb(worst - 1.5, worst + 1.5);
                if (Above(gaps, worst) > AboveDb && level > HumDb && Above(gaps, mains * 2) > 6 && Above(gaps, mains) > 6)
                {
                    yield return Found(take.Name, $"{Words.Number(level)} dBFS at {worst} Hz", $"In the gaps {worst} Hz stands {Words.Number(Above(gaps, worst))} dB above its neighbours, at {Words.Number(level)} dBFS: hum.");
                    break;
                }
            }

            var quiet = take.Figures!.Powers(QuietMs).Where(p => p > 0).Order().ToList();
            var floor = quiet.Count > 0 ? TakeFigures.PowerDb(quiet[quiet.Count / 20]) : double.NegativeInfinity;
            if (take.IsClose && floor > NoiseDb)
            {
                yield return Found(take.Name, $"{Words.Number(floor)} dBFS", $"Even the quietest twentieth of the file is at {Words.Number(floor)} dBFS.");
            }
        }
    }

    private const int Places = 6;
    private const int Points = 32768;
    private const int Harmonics = 6;
    private const int QuietMs = 50;
    private const double AboveDb = 12;
    private const double HumDb = -65;
    private const double NoiseDb = -55;
    private static readonly int[] Mains = [50, 60];

    private static double Above(MeanSpectrum gaps, double hz) =>
        gaps.LevelDb(hz - 1.5, hz + 1.5) - Math.Max(gaps.LevelDb(hz - 9, hz - 4), gaps.LevelDb(hz + 4, hz + 9));
}
