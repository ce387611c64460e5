using DrumPrint.Chains.Describing;

namespace DrumPrint.Delivering;

/// <summary>Manifests as JSON Schema, made from the declarations that reader and writer go by.</summary>
public static class ManifestSchema
{
    /// <summary>The schema of a manifest.</summary>
    public static string Text() => ChainSchema.Text("DrumPrint delivery", ManifestKeys.Shape, [ManifestKeys.WishShape, ManifestKeys.FileShape]);
}
