using System.Globalization;
using DrumPrint.Measuring;

namespace DrumPrint.Cli.Output;

/// <summary>Shows levels of hits.</summary>
internal static class HitsScreen
{
    public static void Write(IReadOnlyList<HitReport> reports)
    {
        var console = Terminal.Screen();
        var table = new ScreenTable().Text("File")
            .Figures("Hits").Figures("Hits,\nsoft\n10 %").Figures("Hits,\nmiddle", 2).Figures("Hits,\nloud\n5 %", 4).Figures("Ghosts").Figures("Ghosts,\nmiddle", 3)
            .Figures("Spill", 5).Figures("Spill,\nmiddle", 6).Figures("Spill,\nloud\n5 %", 1).Figures("Threshold\nbetween");
        foreach (var r in reports)
        {
            table.Row(
                Visible.Line(Path.GetFileNameWithoutExtension(r.File)),
                Count(r.Hits), Db(r.Hits.SoftDb), Db(r.Hits.MiddleDb), Db(r.Hits.LoudDb), Count(r.Ghosts), Db(r.Ghosts.MiddleDb), Count(r.Spill), Db(r.Spill.MiddleDb), Db(r.Spill.LoudDb), Db(r.OpenDb));
        }

        table.Draw(console, ", --json too");
        console.Line("Levels are the highest sample of each hit, dBFS. The threshold stands a third of the way from loud spill up to soft hits.");
        foreach (var group in reports.Where(r => r.Note is not null).GroupBy(r => r.Note))
        {
            console.Line($"{string.Join(", ", group.Select(r => Path.GetFileNameWithoutExtension(r.File)))}: {group.Key}");
        }
    }

    private static string Count(LevelSpread spread) => spread.Count.ToString(CultureInfo.InvariantCulture);

    private static string Db(double? value) => value is { } db ? db.ToString("0.0;−0.0;0.0", CultureInfo.InvariantCulture) : "–";
}
