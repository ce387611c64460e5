using DrumPrint.Demo.Faults;

namespace DrumPrint.Cli.Output;

/// <summary>Shows what is wrong with a session that demo damaged.</summary>
internal static class FaultScreen
{
    public static void Write(FaultyDemoFiles made, bool hasPrints)
    {
        var console = Terminal.Screen();
        console.Line("This session is damaged on purpose, to see what check finds. Do not mix it, and do not learn a sound from it.");
        var table = new ScreenTable().Text("").Text("Where").Text("What is wrong").Text("Rule", 1);
        foreach (var fault in made.Faults)
        {
            table.Row(fault.Id, Visible.Line(fault.Part), Visible.Line(fault.What), string.Join(", ", fault.Signs.Select(s => s.Rule)));
        }

        table.Draw(console, $", and in {made.List}");
        console.Line($"Written: {made.Session.Chain} with its takes{(hasPrints ? " and prints" : "")}. With bars and times: {made.List}");
        console.Line($"Check it with: drumprint check {made.Session.Chain}");
    }
}
