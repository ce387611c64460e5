using System.Globalization;
using DrumPrint.Prints;

namespace DrumPrint.Cli.Output;

/// <summary>Shows where the time of a render went, on standard error.</summary>
internal static class ProfileScreen
{
    private const int Rows = 25;

    public static void Write(PrintReport report)
    {
        var total = report.Profile.Sum(n => n.Seconds);
        if (total <= 0)
        {
            return;
        }

        Console.Error.WriteLine("Step                              time ms   share");
        foreach (var node in report.Profile.Take(Rows))
        {
            Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{node.Name,-32} {node.Seconds * 1000,8:0.0}  {100 * node.Seconds / total,5:0.0} %"));
        }

        var song = (double)report.Frames / report.Chain.Song.RateHz;
        Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{report.Profile.Count} steps, {total * 1000:0} ms in all: {song / total:0} times real time on one core."));
        Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"The longest step runs its blocks one after another, so more cores help up to {total / report.Profile[0].Seconds:0.0} times."));
        Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Memory: {Environment.WorkingSet / 1048576.0:0} MB."));
    }
}
