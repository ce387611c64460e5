using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of a recipe: what the chains of several songs share.</summary>
internal static class RecipeKeys
{
    /// <summary>The format this version reads.</summary>
    public const int Format = 1;

    public static readonly NumberParameter Recipe = new("recipe", Unit.None, Format, Format, null, "Format of this file.") { IsWhole = true, IsRequired = true };

    public static readonly ShapesParameter Prints = new("prints", PrintKeys.Shape, "Files to make.");

    public static readonly Shape Shape = new(
        "a recipe",
        "Buses and processors that the chains of several songs share. A chain names it in use.",
        [ChainKeys.Schema, Recipe, ChainKeys.Impulses, ChainKeys.Buses, Prints, ChainKeys.DrumBus, ChainKeys.Output])
    {
        Refusals = new[] { ChainKeys.Chain.Key, ChainKeys.Song.Key, ChainKeys.Tracks.Key, ChainKeys.Accepted.Key, ChainKeys.Delivery.Key, ChainKeys.Reference.Key, ChainKeys.Use.Key }
            .ToDictionary(k => k, k => k == ChainKeys.Use.Key ? "a recipe uses no other one." : $"'{k}' is each song's own; it stands in the chain and not in a recipe.", StringComparer.Ordinal),
    };
}
