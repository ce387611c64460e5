using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;
using DrumPrint.Files;

namespace DrumPrint.Reprinting;

/// <summary>What becomes of the tempo map of a chain that is written again.</summary>
/// <param name="Path">Where the chain looks for it.</param>
/// <param name="Text">What to write there; null when nothing is to be written.</param>
/// <param name="Note">What to know of it, in sentences; null when there is nothing to know.</param>
internal sealed record RecoveredTempo(string Path, string? Text, string? Note)
{
    /// <summary>Looks at what is there. A map that lies there stays, whatever it says.</summary>
    /// <param name="folder">The folder that the chain is written to: nothing is written outside it.</param>
    /// <param name="map">The map, with the name that came with it.</param>
    /// <exception cref="UsageException">The name leads where a chain may neither read nor write.</exception>
    public static RecoveredTempo Of(string folder, TempoMap map)
    {
        if ((ReceivedName.Trouble(folder, map.File) ?? (IsMap(map.File) ? null : "the name of a tempo map ends in .json, .mid or .midi")) is { } trouble)
        {
            return Outside(folder, map, trouble);
        }

        var path = System.IO.Path.Combine(folder, map.File);
        return File.Exists(path) ? new RecoveredTempo(path, null, AsItIs(path, map)) : new RecoveredTempo(path, TempoWriter.Canonical(map), AsText(path));
    }

    private static bool IsMap(string name) => IsMidi(name) || name.EndsWith(".json", StringComparison.OrdinalIgnoreCase);

    private static bool IsMidi(string name) => System.IO.Path.GetExtension(name).ToUpperInvariant() is ".MID" or ".MIDI";

    // A chain that named a MIDI file keeps the name.
    private static string? AsText(string path) => IsMidi(path)
        ? $"{path} is written as a tempo map in text, whatever its name; only drumprint reads it. Put the MIDI file back to have that."
        : null;

    // A chain may read from the folder beside its own. Nothing is written there for it.
    private static RecoveredTempo Outside(string folder, TempoMap map, string trouble)
    {
        if (!map.File.StartsWith("../", StringComparison.Ordinal) || new SessionReach(ReadPolicy.Default, folder).Outside(map.File) is not null)
        {
            throw new UsageException($"This chain wants its tempo map at '{map.File}', and nothing is written there: {trouble}. A chain from somebody else could replace any file of yours that way. Nothing was written.");
        }

        var path = System.IO.Path.Combine(folder, map.File);
        return new RecoveredTempo(path, null, File.Exists(path)
            ? AsItIs(path, map)
            : $"The chain reads its tempo map from {map.File}, and it is not there. Nothing is written outside {folder}: write the chain one folder further down with --out, or bring the tempo map back.");
    }

    private static string? AsItIs(string path, TempoMap map)
    {
        try
        {
            return TempoWriter.Canonical(TempoReader.Read(path, map.File)) == TempoWriter.Canonical(map)
                ? null
                : $"{path} is there already and holds other bars or tempi than were printed with. The chain reads it; to have those of then, move it away and try again.";
        }
        catch (Exception e) when (e is ChainException or UnreadableFileException)
        {
            return $"{path}, the tempo map, is there already and cannot be read. Move it away and try again to have the one of then.";
        }
    }
}
