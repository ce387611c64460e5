namespace DrumPrint.Comparing.Measuring;

/// <summary>A place where B fits A a little better than where it was left.</summary>
/// <param name="Frames">Frames by which B would be late; negative for early.</param>
/// <param name="RateHz">Frames in a second.</param>
/// <param name="Correlation">How alike both would be there, −1 to 1.</param>
public sealed record UnusedDelay(int Frames, int RateHz, double Correlation)
{
    /// <summary>The same in milliseconds.</summary>
    public double Ms => 1000.0 * Frames / RateHz;
}
