using System.Globalization;
using DrumPrint.Aligning;

namespace DrumPrint.Cli.Output;

/// <summary>Shows how microphones lie against each other.</summary>
internal static class AlignScreen
{
    private const string Unknown = "cannot be told";

    public static void Write(AlignmentReport report)
    {
        var console = Terminal.Screen();
        var table = new ScreenTable()
            .Text("Drum, by").Text("Microphone").Figures("Later\nframes", 5).Figures("±", 6).Figures("ms").Figures("m", 4)
            .Text("Polarity").Figures("Hits", 3).Figures("Body\nadds up", 2).Figures("Left in the\nchain, ms", 1);
        foreach (var row in report.Rows)
        {
            table.Row(
                Visible.Line($"{row.Drum}, {row.Reference}"),
                Visible.Line(row.Microphone),
                Text(row.LaterFrames, "0.0"),
                Text(row.SpreadFrames, "0.0"),
                row.LaterMs is null ? Unknown : Text(row.LaterMs, "0.00"),
                Text(row.LaterM, "0.00"),
                row.IsOpposite switch { false => "same", true => "opposite", null => Unknown },
                row.Hits.ToString(CultureInfo.InvariantCulture),
                row.BodyAgreement is { } body ? Text(body, "0.0") : "",
                Text(row.LeftMs, "0.00") + (row.IsOppositeNow == true ? ", opposite" : ""));
        }

        table.Draw(console, ", --json too");
        if (report.Rows.Any(r => r.Kind == MicrophoneKind.SameDrum))
        {
            console.Line("Body adds up: what 40 to 300 Hz of both do as recorded, 1 add in full, −1 cancel.");
        }

        foreach (var note in report.Notes)
        {
            console.Line(note);
        }
    }

    public static void Write(IReadOnlyList<AlignmentMove> moves, bool isChanged, string chain)
    {
        foreach (var move in moves)
        {
            var delay = move.DelayMs is { } ms ? string.Create(CultureInfo.InvariantCulture, $"delay {ms:0.00} ms") : "the delay cannot be told and stays";
            var polarity = move.IsInverted switch { true => "polarity inverted", false => "polarity normal", null => "polarity stays" };
            Terminal.Tell($"{move.Track}: {delay}, {polarity}.");
        }

        Terminal.Tell(isChanged ? $"Written into {chain}; everything else in it is as it was. To take it back: drumprint align \"{chain}\" --undo" : $"{chain} says so already; nothing was written.");
    }

    private static string Text(double? value, string format) => value is { } number ? number.ToString(format + ";−" + format + ";" + format, CultureInfo.InvariantCulture) : "–";
}
