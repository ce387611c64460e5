namespace DrumPrint.Audio;

/// <summary>The samples of an open file as WAV holds them: frame by frame, lowest byte first. They can be read from any frame on.
/// Not safe for several threads at once.</summary>
internal abstract class SampleBytes : IDisposable
{
    /// <summary>Whether what <see cref="Fetch"/> gives are bytes of the file, so that a hash of the file can take them in passing.</summary>
    public abstract bool AreOfFile { get; }

    /// <summary>Fills the span with whole frames.</summary>
    /// <param name="frame">The first of them.</param>
    /// <param name="bytes">Where they go; no more than the file has.</param>
    /// <exception cref="AudioFileException">They cannot be read, or are damaged.</exception>
    public abstract void Fetch(long frame, Span<byte> bytes);

    public virtual void Dispose()
    {
    }

    /// <summary>Brings what was fetched into the order and place that WAV has.</summary>
    public virtual void Arrange(Span<byte> bytes)
    {
    }
}
