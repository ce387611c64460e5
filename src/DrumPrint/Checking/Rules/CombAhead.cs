using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Language;

namespace DrumPrint.Checking.Rules;

/// <summary>A track will meet itself out of step, before anything is printed.</summary>
internal sealed class CombAhead : CheckRule
{
    private const int MostTold = 3;

    public override Rule Rule { get; } = new(
        "F7",
        Severity.Warning,
        "A comb ahead, from parallel paths",
        "two ways of one track to a bus or the rough, within 20 ms of each other and of other delay or polarity, whose sum dips by 6 dB and more below 8 kHz at the levels they have",
        "Give both ways one delay and polarity, or turn one of them down.");

    public override IEnumerable<Finding> Find(CheckSubject subject)
    {
        foreach (var comb in subject.Combs)
        {
            var ways = $"{comb.Track} comes to {comb.Place} by {Show.List([.. comb.By])}, {(comb.ApartMs == 0 ? "upside down" : Words.Number(comb.ApartMs, 2) + " ms")} and {Words.Number(comb.BesideDb)} dB apart";
            yield return comb.DipsHz.Count == 0
                ? Told(comb, "all frequencies", $"{ways}: they cancel by {Words.Number(comb.DepthDb)} dB at all frequencies.")
                : Told(comb, $"dips from {Words.Frequency(comb.DipsHz[0])}", $"{ways}: their sum dips by up to {Words.Number(comb.DepthDb)} dB at {Show.List([.. comb.DipsHz.Take(MostTold).Select(hz => Words.Frequency(hz))])}{(comb.DipsHz.Count > MostTold ? $" and {Words.Count(comb.DipsHz.Count - MostTold, "more place", "more places")} below 8 kHz" : "")}.");
        }
    }

    private Finding Told(ForecastComb comb, string measured, string sentence) =>
        Found(comb.Place == "the rough" ? "" : comb.Place, $"−{Words.Number(comb.DepthDb)} dB, {measured}", sentence) with { Value = comb.DepthDb, Count = Math.Max(1, comb.DipsHz.Count) };
}
