namespace DrumPrint.Chains;

/// <summary>A checked chain file: everything needed to print a session but the audio itself.</summary>
/// <param name="Path">The chain file, as the user named it.</param>
/// <param name="Song">Title, code, rate and the like.</param>
/// <param name="Tracks">Raw recordings, in file order.</param>
/// <param name="Impulses">Impulse responses, in file order.</param>
/// <param name="Buses">Buses, in file order; any may feed any other, without a circle.</param>
/// <param name="Prints">What is rendered to files, by number.</param>
/// <param name="DrumBus">Processing described for the mixer, heard only on the second rough.</param>
/// <param name="Output">Word length, tails, roughs.</param>
public sealed record Chain(
    string Path,
    Song Song,
    IReadOnlyList<Track> Tracks,
    IReadOnlyList<ImpulseFile> Impulses,
    IReadOnlyList<Bus> Buses,
    IReadOnlyList<Print> Prints,
    IReadOnlyList<Stage> DrumBus,
    OutputSettings Output)
{
    /// <summary>What the mixer should know of the drum bus; null when the chain says nothing.</summary>
    public string? DrumBusNotes { get; init; }

    /// <summary>Processors of the drum bus that are off.</summary>
    public IReadOnlyList<TurnedOff<Stage>> OffDrumBus { get; init; } = [];

    /// <summary>Findings of a check that are meant, in file order; nothing of the sound depends on them.</summary>
    public IReadOnlyList<Acceptance> Accepted { get; init; } = [];

    /// <summary>What is said of deliveries; no sound and no print depends on it.</summary>
    public DeliverySettings Delivery { get; init; } = DeliverySettings.None;

    /// <summary>The song's own mix, heard on the bench beside the prints; no print depends on it. Null without one.</summary>
    public Track? Reference { get; init; }

    /// <summary>The recipe it uses, of which all is in the chain already; null without one.</summary>
    public UsedRecipe? Uses { get; init; }

    /// <summary>The file in which something of the chain stands: the chain's own, or its recipe.</summary>
    /// <param name="place">What: <c>buses.kick</c>, <c>impulses.hall</c>, <c>prints.3</c>, <c>drum_bus</c>.</param>
    public string FileOf(string place) => Uses is { } recipe && recipe.Holds(place) ? recipe.Path : Path;

    /// <summary>Folder that relative paths in the chain start from, as the user named it; empty for the working folder.</summary>
    public string Folder => System.IO.Path.GetDirectoryName(Path) ?? "";
}
