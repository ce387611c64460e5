using SharpFuzz;

namespace DrumPrint.Fuzz.Driver;

/// <summary>Marks in compiled code which places a run came by.</summary>
internal static class Instrumentation
{
    // What runs on a thread of the pool would make the map depend on chance, and what renders or decodes sound is read by nobody's mail.
    private static readonly string[] Left =
    [
        "DrumPrint.Audio.HashingReader", "DrumPrint.Audio.EarlyStep", "DrumPrint.Audio.SampleDecoder", "DrumPrint.Audio.SampleEncoder", "DrumPrint.Audio.Interleaving",
        "DrumPrint.Rendering.", "DrumPrint.Dsp.Processors.", "DrumPrint.Dsp.Numerics.", "DrumPrint.Dsp.Filters.",
    ];

    /// <param name="folder">A copy of this program.</param>
    public static int Run(string folder)
    {
        foreach (var name in new[] { "DrumPrint.Engine.dll", "DrumPrint.Dsp.dll" })
        {
            var types = Fuzzer.Instrument(Path.Combine(folder, name), type => !Array.Exists(Left, l => type.StartsWith(l, StringComparison.Ordinal)), Options.Value).Count();
            Console.WriteLine($"{name}: {types} types");
        }

        return 0;
    }
}
