using DrumPrint.Chains.Format;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Tickets;

/// <summary>The keys that a ticket and the part of it inside a print share.</summary>
internal static class RecordKeys
{
    private const double MostFrames = 1e15;

    public static readonly TextParameter Engine = new("engine", TextKind.Title, "Version of the program that printed.") { IsRequired = true };

    public static readonly NumberParameter Length = Frames("Length of every print.");

    public static readonly NumberParameter Trim = new("trim_db", Unit.Decibels, -1000, 0, 0, "Common trim of all prints.");

    public static readonly TextParameter ChainSha256 = new("chain_sha256", TextKind.Sha256, "Hash of the chain's canonical text.") { IsRequired = true };

    public static readonly TextParameter TempoSha256 = new("tempo_sha256", TextKind.Sha256, "Hash of the tempo map's canonical text.");

    public static readonly ShapesParameter Tracks = new("tracks", InputKeys.Shape, "Raw recordings that were heard.");

    public static readonly ShapesParameter Impulses = new("impulses", InputKeys.Shape, "Impulse responses that were used.");

    public static readonly ShapeParameter Chain = new("chain", ChainKeys.Shape, "The chain in canonical form, every default and revision spelled out.") { IsRequired = true, DescribedIn = "chain.schema.json" };

    public static readonly ShapeParameter Tempo = new("tempo", TempoKeys.Shape, "The tempo map the chain names.") { DescribedIn = "tempo.schema.json" };

    public static NumberParameter Frames(string help) => new("frames", Unit.None, 0, MostFrames, null, help) { IsWhole = true, IsRequired = true };
}
