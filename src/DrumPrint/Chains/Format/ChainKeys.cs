using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of a chain file.</summary>
internal static class ChainKeys
{
    /// <summary>The format this version reads and writes.</summary>
    public const int Format = 1;

    private const string SampleTrack = "\"kick in\": \"raw/01_KickIn.wav\"";
    private const string SampleBus = "\"kick\": { \"from\": { \"kick in\": 0 } }";

    public static readonly TextParameter Schema = new("$schema", TextKind.Title, "Where an editor finds the description of this format; means nothing to the print.");

    public static readonly NumberParameter Chain = new("chain", Unit.None, Format, Format, null, "Format of this file.") { IsWhole = true, IsRequired = true };

    public static readonly TextParameter Use = new("use", TextKind.Path, "A recipe: a file of buses, processors and prints that several songs share. What the chain itself gives under the same name or number is the chain's.");

    public static readonly ShapeParameter Song = new("song", SongKeys.Shape, "What the whole session shares.") { IsRequired = true };

    public static readonly NamedShapesParameter Tracks = new("tracks", TrackKeys.Shape, "Raw recordings by name.")
    {
        IsRequired = true,
        Sample = SampleTrack,
        WhenEmpty = $"there is no track. Name at least one, such as {SampleTrack}.",
    };

    public static readonly NamedShapesParameter Impulses = new("impulses", ImpulseKeys.Shape, "Impulse responses by name.");

    public static readonly NamedShapesParameter Buses = new("buses", BusKeys.Shape, "Buses by name.")
    {
        IsRequired = true,
        Sample = SampleBus,
        WhenEmpty = $"there is no bus. Name at least one, such as {SampleBus}.",
    };

    public static readonly ShapesParameter Prints = new("prints", PrintKeys.Shape, "Files to make.")
    {
        IsRequired = true,
        WhenEmpty = "there is no print. Add at least one, such as { \"number\": 1, \"name\": \"Kick\", \"bus\": \"kick\" }.",
    };

    public static readonly ShapeParameter DrumBus = new("drum_bus", DrumBusKeys.Shape, "Processing described for the mixer and heard on the second rough only.");

    public static readonly ShapesParameter Accepted = new("accepted", AcceptedKeys.Shape, "Findings of the check that are meant; nothing of the sound depends on them.");

    public static readonly ShapeParameter Output = new("output", OutputKeys.Shape, "How prints are written.");

    public static readonly ShapeParameter Delivery = new("delivery", DeliveryKeys.Shape, "What is said of deliveries; no sound and no print depends on it.");

    public static readonly ShapeParameter Reference = new("reference", ReferenceKeys.Shape, "The song's own mix, heard on the bench beside the prints; never printed, and no print depends on it.");

    public static readonly Shape Shape = new(
        "a chain", "Everything needed to print a session but the audio itself.", [Schema, Chain, Use, Song, Tracks, Impulses, Buses, Prints, DrumBus, Output, Accepted, Delivery, Reference])
    {
        Lender = Use,
        Lent = [Buses, Prints],
    };
}
