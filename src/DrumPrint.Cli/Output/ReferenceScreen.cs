using DrumPrint.Chains.Describing;

namespace DrumPrint.Cli.Output;

/// <summary>Shows the processor reference.</summary>
internal static class ReferenceScreen
{
    public static void List(IReadOnlyList<ProcessorPage> pages)
    {
        var console = Terminal.Screen();
        var table = new ScreenTable(hasHead: false).Text("").Text("");
        foreach (var page in pages)
        {
            table.Row(page.Key, page.Summary);
        }

        table.Draw(console);
        console.Line("For the settings of one: drumprint processors NAME");
    }

    public static void Page(ProcessorPage page)
    {
        var console = Terminal.Screen();
        console.Line(page.Summary);
        console.Line($"Revision {page.Revision}{(page.Revisions.Count > 1 ? $" (also: {string.Join(", ", page.Revisions.Skip(1))})" : "")}{(page.TakesKey ? "; takes a \"key\", the name of another track or bus to listen to" : "")}.");
        console.Line();
        console.Line($"In a chain, with the settings you want: {page.Example}");
        foreach (var part in page.Tables)
        {
            if (part.Rows.Count == 0)
            {
                continue;
            }

            console.Line();
            console.Line(part.Title == page.Key ? part.Title : $"{part.Title}: {part.Summary}");
            var table = new ScreenTable().Text("Setting").Text("Takes").Text("Left out").Text("What it does");
            foreach (var row in part.Rows)
            {
                table.Row(row.Key, row.Takes, row.Default, row.Help);
            }

            table.Draw(console);
        }
    }
}
