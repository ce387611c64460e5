using System.Globalization;
using DrumPrint.Printing.Reports;

namespace DrumPrint.Cli.Output;

/// <summary>Shows where the time of a render went, on standard error.</summary>
internal static class ProfileScreen
{
    private const int Rows = 25;

    public static void Write(PrintReport report)
    {
        var total = report.Profile?.Steps.Sum(n => n.Seconds) ?? 0;
        if (report.Profile is not { } profile || total <= 0)
        {
            return;
        }

        Terminal.Say("Step                              time ms   share");
        foreach (var node in profile.Steps.Take(Rows))
        {
            Terminal.Say(string.Create(CultureInfo.InvariantCulture, $"{node.Name,-32} {node.Seconds * 1000,8:0.0}  {100 * node.Seconds / total,5:0.0} %"));
        }

        var song = (double)report.Frames / report.Chain.Song.RateHz;
        var chain = profile.LongestChain.Sum(n => n.Seconds);
        Terminal.Say(string.Create(CultureInfo.InvariantCulture, $"{profile.Steps.Count} steps, {total * 1000:0} ms in all: {song / total:0} times real time on one core."));
        Terminal.Say(string.Create(CultureInfo.InvariantCulture, $"Longest chain, {chain * 1000:0} ms ({100 * chain / total:0} %): {string.Join(" > ", profile.LongestChain.Select(n => n.Name))}."));
        Terminal.Say(string.Create(CultureInfo.InvariantCulture, $"On more cores, as far as the steps go: {string.Join(", ", profile.SpeedUps.Select(s => string.Create(CultureInfo.InvariantCulture, $"{s.Cores} cores {s.Times:0.0} times")))}."));
        Terminal.Say(string.Create(CultureInfo.InvariantCulture, $"Memory: {Environment.WorkingSet / 1048576.0:0} MB."));
    }
}
