namespace DrumPrint.Session;

/// <summary>How far a processor turned the signal down.</summary>
/// <param name="Processor">Its key.</param>
/// <param name="MedianDb">Median of the 10 ms windows in which it worked (0.1 dB or more); 0 when it never did.</param>
/// <param name="LargestDb">The most it did.</param>
public sealed record GainReduction(string Processor, double MedianDb, double LargestDb)
{
    /// <summary>The bus it stands in; null for the print's own.</summary>
    public string? Bus { get; init; }
}
