using DrumPrint.Chains;

namespace DrumPrint.Demo.Faults;

/// <summary>Damages the chain.</summary>
internal static class ChainFaults
{
    private static readonly (string Right, string Wrong)[] Edits =
    [
        ("""{ "file": "raw/06_SnareBottom.wav", "polarity": "inverted" },   // sees the drum from below""", "\"raw/06_SnareBottom.wav\","),
        ("""{ "gate": { "open_db": -31, "close_db": -37,""", """{ "gate": { "open_db": -24, "close_db": -30,"""),
        ("""{ "high_pass":  { "freq_hz": 35, "slope_db_per_oct": 6 } },""", """{ "high_pass":  { "freq_hz": 90, "slope_db_per_oct": 24 } },"""),
    ];

    /// <summary>The chain's text with its faults.</summary>
    public static string Of(string text)
    {
        foreach (var (right, wrong) in Edits)
        {
            text = text.Contains(right, StringComparison.Ordinal) ? text.Replace(right, wrong, StringComparison.Ordinal) : throw new InvalidOperationException($"The demo's chain has no '{right}'.");
        }

        return $"// Damaged on purpose: {FaultList.FileName} says what is wrong.\n{text}";
    }

    /// <summary>What they are.</summary>
    /// <param name="map">The bars of the session.</param>
    public static IEnumerable<DemoFault> All(TempoMap map)
    {
        var verse = Math.Max(map.FirstBar, map.Sections.First(s => s.Name == "verse 1").FromBar);
        yield return new("R1", "track \"snare bottom\"", "The chain does not invert the microphone under the snare.", new FaultSign("F1", "snare bottom"));
        yield return new("P5", "bus \"snare gate\" (print 04)", "The gate opens at −24 dB instead of −31 dB, so ghost notes of verse 1 are lost.", new FaultSign("G7", "snare gate")) { PlacesS = [map.SecondsAtBar(verse)] };
        yield return new("P10", "bus \"impact\" (print 12)", "The high-pass falls 24 dB per octave from 90 Hz, instead of 6 from 35 Hz.", new FaultSign("F4", "impact"));
    }
}
