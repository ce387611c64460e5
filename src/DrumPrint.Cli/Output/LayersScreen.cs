using System.Globalization;
using DrumPrint.Measuring;

namespace DrumPrint.Cli.Output;

/// <summary>Shows under which hits a chain plays sounds.</summary>
internal static class LayersScreen
{
    public static void Write(IReadOnlyList<LayerRecord> layers)
    {
        var console = Terminal.Screen();
        foreach (var layer in layers)
        {
            console.Line($"{Visible.Line(layer.Bus)}: '{Visible.Line(layer.Sound)}' under {layer.Hits.Count.ToString(CultureInfo.InvariantCulture)} {(layer.Hits.Count == 1 ? "hit" : "hits")}");
            if (layer.Hits.Count == 0)
            {
                continue;
            }

            var table = new ScreenTable().Text("Bar:beat").Figures("Seconds", 1).Figures("Hit,\ndBFS").Figures("Sound,\ndB").Text("Way round").Figures("Alike,\n%", 2);
            foreach (var hit in layer.Hits)
            {
                table.Row(hit.Place ?? "–", Text(hit.Seconds, "0.0000"), Text(hit.LevelDb, "0.0"), Text(hit.GainDb, "+0.0;−0.0;0.0"), hit.IsInverted ? "inverted" : "as it is", Text(hit.LikenessPct, "0"));
            }

            table.Draw(console, ", --json too");
        }
    }

    private static string Text(double value, string form) => value.ToString(form, CultureInfo.InvariantCulture).Replace('-', '−');
}
