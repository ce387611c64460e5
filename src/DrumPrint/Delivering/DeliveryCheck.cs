namespace DrumPrint.Delivering;

/// <summary>What a received folder is, held against its manifest.</summary>
/// <param name="Manifest">The manifest.</param>
/// <param name="Findings">What is not as it should be; none when all is.</param>
public sealed record DeliveryCheck(DeliveryManifest Manifest, IReadOnlyList<DeliveryFinding> Findings)
{
    /// <summary>Whether every file is there to the last byte, and no other.</summary>
    public bool IsWhole => Findings.Count == 0;

    /// <summary>Checks a received folder; no chain is needed.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="cancel">Stops it.</param>
    /// <exception cref="DeliveryException">It holds no manifest that can be used.</exception>
    public static DeliveryCheck Check(string folder, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(folder);
        return new FolderCheck(folder, cancel).Run();
    }
}
