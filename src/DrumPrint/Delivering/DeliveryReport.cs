namespace DrumPrint.Delivering;

/// <summary>What was delivered.</summary>
/// <param name="Manifest">The manifest of the whole delivery.</param>
/// <param name="Written">Folders and files that were made; empty when all was there already.</param>
/// <param name="Proof">A line for each pan law; empty without a rough.</param>
/// <param name="Notes">What a user should know, in sentences.</param>
public sealed record DeliveryReport(DeliveryManifest Manifest, IReadOnlyList<string> Written, IReadOnlyList<PanLawLine> Proof, IReadOnlyList<string> Notes)
{
    /// <summary>What the mixer is to replace, in a sentence; null for a first version.</summary>
    public string? ReplaceWords => Manifest.SinceVersion is null ? null : SheetChanges.ReplaceWords(Manifest);
}
