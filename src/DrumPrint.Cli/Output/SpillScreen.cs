using System.Globalization;
using DrumPrint.Language;
using DrumPrint.Measuring;

namespace DrumPrint.Cli.Output;

/// <summary>Shows what a chain's <c>spill</c> will take from hits and ghosts.</summary>
internal static class SpillScreen
{
    // More would fill the screen.
    private const int MostPlaces = 20;

    public static void Write(IReadOnlyList<SpillRecord> spills)
    {
        var console = Terminal.Screen();
        foreach (var spill in spills)
        {
            console.Line($"{Visible.Line(spill.Bus)}: what '{Visible.Line(spill.Key)}' hears better goes down by up to {Number(spill.AmountDb)} dB");
            var table = new ScreenTable().Text("").Figures("Count").Figures("Half lose\nmore, dB").Figures("Most\nlost, dB").Text("There").Figures("Level\nthere", 1);
            foreach (var (name, hits) in new[] { ("hits", spill.Hits), ("ghosts", spill.Ghosts), ("spill", spill.Spill) })
            {
                var most = hits.Count == 0 ? null : hits.MinBy(h => h.ChangeDb);
                table.Row(name, hits.Count.ToString(CultureInfo.InvariantCulture), hits.Count == 0 ? "–" : Loss(Middle(hits)), most is null ? "–" : Loss(most.ChangeDb), Place(most), most is null ? "–" : Number(most.LevelDb));
            }

            table.Draw(console, ", --json too");
            if (spill.Lost.Count > 0)
            {
                console.Line(Lost(spill.Lost));
            }
            else if (spill.Hits.Count + spill.Ghosts.Count == 0)
            {
                console.Line("No hit stands out as this microphone's own: the key hears all of them as well, or it is silent.");
            }
        }

        if (spills.Count > 0)
        {
            console.Line("Levels are means over the loudest 8 ms of a hit, dBFS. A ghost that falls together with louder spill counts as spill.");
        }
    }

    private static string Lost(IReadOnlyList<SpilledHit> lost)
    {
        var (verb, them) = lost.Count == 1 ? ("loses", "it") : ("lose", "them");
        var places = string.Join(", ", lost.Take(MostPlaces).Select(h => $"{Place(h)} ({Loss(h.ChangeDb)})"));
        var more = lost.Count > MostPlaces ? $" and {Words.Count(lost.Count - MostPlaces, "more", "more")}, which --json names" : "";
        return $"{Words.Count(lost.Count, "stroke")} of its own {verb} more than {Number(SpillRecord.LostDb)} dB: {places}{more}. A lower 'amount_db' keeps more of {them}.";
    }

    private static double Middle(IReadOnlyList<SpilledHit> hits) => hits.Select(h => h.ChangeDb).Order().ElementAt((hits.Count - 1) / 2);

    private static string Place(SpilledHit? hit) => hit is null ? "–" : hit.Place ?? $"{hit.Seconds.ToString("0.000", CultureInfo.InvariantCulture)} s";

    private static string Loss(double changeDb) => Number(-changeDb);

    private static string Number(double value) => value.ToString("0.0;−0.0;0.0", CultureInfo.InvariantCulture);
}
