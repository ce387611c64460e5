using DrumPrint.Carrying;

namespace DrumPrint.Cli.Output;

/// <summary>Shows a chain that was carried.</summary>
internal static class CarryScreen
{
    public static void Write(CarriedSession carried)
    {
        var console = Terminal.Screen();
        var table = new ScreenTable().Text("Track").Text("Before").Text("Now").Text("Told by");
        foreach (var track in carried.Tracks)
        {
            table.Row(Visible.Line(track.Name), Visible.Line(track.Before), Visible.Line(track.Now ?? "missing"), Visible.Line(track.Why));
        }

        table.Draw(console, ", --json too");
        List(console, "Moved:", carried.Moved);
        List(console, "No track takes:", carried.Unused);
        foreach (var line in carried.LeftBehind.Concat(carried.Notes))
        {
            console.Line(line);
        }

        console.Line(carried.IsWhole
            ? $"Written: {carried.ChainPath}. To hear it: drumprint print \"{carried.ChainPath}\""
            : $"Written: {carried.ChainPath}. Bring the missing files, or take their tracks out of it; then: drumprint print \"{carried.ChainPath}\"");
        console.Line(Screen.HearingNote);
    }

    private static void List(Screen console, string head, IReadOnlyList<string> lines)
    {
        if (lines.Count == 0)
        {
            return;
        }

        console.Line(head);
        foreach (var line in lines)
        {
            console.Line($"  {line}");
        }
    }
}
