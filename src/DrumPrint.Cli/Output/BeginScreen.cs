using System.Globalization;
using DrumPrint.Beginning;

namespace DrumPrint.Cli.Output;

/// <summary>Shows a session that was begun.</summary>
internal static class BeginScreen
{
    public static void Write(BegunSession begun, bool explains)
    {
        var console = Terminal.Screen();
        var table = new ScreenTable().Text("File").Text("Track").Text("Polarity").Figures("Delay\nms");
        foreach (var track in begun.Tracks)
        {
            table.Row(Visible.Line(track.File), Visible.Line(track.Name), track.IsInverted ? "inverted" : "", track.DelayMs > 0 ? track.DelayMs.ToString("0.00", CultureInfo.InvariantCulture) : "");
        }

        table.Draw(console);
        if (begun.LeftOut.Count > 0)
        {
            console.Line("Left out, unsure:");
            foreach (var file in begun.LeftOut)
            {
                console.Line($"  {file.File}: {file.Why}.");
            }

            if (begun.LeftOut.FirstOrDefault(f => !f.Why.StartsWith("cannot be read", StringComparison.Ordinal)) is { } unsure)
            {
                var file = unsure.File.Contains(" channel ", StringComparison.Ordinal) ? "take.wav#7" : unsure.File;
                console.Line($"To have one in, say what it is: move the new chain away, and begin again with --called \"{file}=snare top\". Or add it to the chain by hand.");
            }
        }

        foreach (var note in begun.Notes)
        {
            console.Line(note);
        }

        if (explains)
        {
            console.Line();
            foreach (var line in begun.Evidence)
            {
                console.Line(line);
            }
        }

        console.Line($"Written: {begun.ChainPath}. To hear it: drumprint print \"{begun.ChainPath}\"");
        console.Line(Screen.HearingNote);
    }
}
