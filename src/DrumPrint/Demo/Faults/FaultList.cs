using System.Text;
using DrumPrint.Chains;

namespace DrumPrint.Demo.Faults;

/// <summary>The text beside a damaged session that names every fault.</summary>
internal static class FaultList
{
    public const string FileName = "FAULTS.txt";

    public static string Of(IReadOnlyList<DemoFault> faults, TempoMap map, bool hasPrints)
    {
        var text = new StringBuilder();
        text.Append("This session is damaged on purpose. Do not mix it, and do not learn a sound from it.\n");
        text.Append("It shows what a check before a hand-over finds: drumprint check SlowFerry.chain.json\n");
        text.Append(hasPrints ? "The prints were made first and spoiled afterwards; print again, and those faults are gone.\n" : "Without prints, only the faults of raw files and chain are in it.\n");
        text.Append("Places are bar:beat, and minutes:seconds from the start of the files.\n");
        foreach (var fault in faults)
        {
            text.Append(FormattableString.Invariant($"\n{fault.Id,-4} {fault.Part}\n"));
            text.Append(FormattableString.Invariant($"     what:   {fault.What}\n"));
            text.Append(FormattableString.Invariant($"     where:  {Where(fault, map)}\n"));
            text.Append(FormattableString.Invariant($"     rule:   {string.Join(", ", fault.Signs.Select(s => $"{s.Rule} of {(s.Track.Length > 0 ? s.Track : "the set")}"))}\n"));
        }

        return text.ToString();
    }

    private static string Where(DemoFault fault, TempoMap map) =>
        fault.PlacesS.Count == 0 ? "the whole of it" : string.Join(", ", fault.PlacesS.Select(p => $"{map.BarAndBeat(p) ?? "after the last bar"} ({Clock(p)})"));

    private static string Clock(double seconds) => FormattableString.Invariant($"{Math.Floor(seconds / 60):0}:{seconds % 60:00.000}");
}
