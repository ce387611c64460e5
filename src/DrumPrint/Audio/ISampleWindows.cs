namespace DrumPrint.Audio;

/// <summary>A recording that is read in any order.</summary>
internal interface ISampleWindows : IDisposable
{
    /// <summary>Fills a span with one channel, from any frame on; what lies outside the recording is silence.</summary>
    /// <param name="channel">From 0; −1 for the mean of all channels.</param>
    /// <param name="firstFrame">Frame to begin with; may be negative.</param>
    /// <param name="into">Where the samples go.</param>
    void Read(int channel, long firstFrame, Span<double> into);
}
