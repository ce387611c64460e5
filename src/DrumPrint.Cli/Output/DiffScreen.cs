using System.Globalization;
using DrumPrint.Diff;

namespace DrumPrint.Cli.Output;

/// <summary>Shows what changed.</summary>
internal static class DiffScreen
{
    public static void Write(DiffReport report)
    {
        var console = Terminal.Screen();
        if (report.IsEqual)
        {
            console.Line(report.Notes.Count == 0 ? "Nothing changed." : "Nothing changed in what both sides hold.");
        }

        // Changes that reach the same prints stand together.
        foreach (var group in report.Changes.GroupBy(c => string.Join(", ", c.Reaches)))
        {
            foreach (var change in group)
            {
                console.Line($"{change.ToString()}");
            }

            console.Line($"{(group.Key.Length == 0 ? "    reaches no print" : $"    reaches {group.Key}")}");
        }

        var moved = report.Measured.Where(m => !m.IsSameAudio).ToList();
        if (moved.Count > 0)
        {
            var table = new ScreenTable().Text("Print").Figures("Peak\ndBFS").Figures("Loudness\nLUFS").Figures("Length\ns", 1);
            foreach (var pair in moved)
            {
                table.Row(
                    Visible.Line(pair.Name),
                    Level(pair.A.PeakDbfs, pair.B.PeakDbfs),
                    Level(pair.A.IntegratedLufs, pair.B.IntegratedLufs),
                    Both(pair.LengthA.ToString("0.000", CultureInfo.InvariantCulture), pair.LengthB.ToString("0.000", CultureInfo.InvariantCulture)));
            }

            table.Draw(console, ", --json too");
        }

        var same = report.Measured.Count - moved.Count;
        if (same > 0)
        {
            console.Line(moved.Count == 0 ? $"All {same} prints hold the same samples." : $"{(same == 1 ? "1 other print holds" : $"{same} other prints hold")} the same samples in both.");
        }

        foreach (var note in report.Notes)
        {
            console.Line($"{note}");
        }
    }

    private static string Level(double a, double b) => Both(Text(a), Text(b));

    private static string Both(string a, string b) => a == b ? a : $"{a} → {b}";

    private static string Text(double db) => double.IsFinite(db) ? db.ToString("0.00", CultureInfo.InvariantCulture).Replace('-', '−') : "silent";
}
