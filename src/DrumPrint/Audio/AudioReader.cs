using DrumPrint.Dsp;

namespace DrumPrint.Audio;

/// <summary>Reads an audio file from its start to its end, as 64-bit samples where full scale is 1.</summary>
/// <remarks>
/// Reads WAV (RIFF, RF64 and BW64) with 8, 16, 24 and 32-bit integers and 32 and 64-bit floating point, and AIFF and
/// AIFF-C uncompressed, and FLAC (RFC 9639) with 4 to 32 bits and up to 8 channels. The file is opened for reading only; others may read it at the same time.
/// </remarks>
public abstract class AudioReader : IDisposable
{
    /// <summary>Lowest sample rate that is read, in Hz.</summary>
    public const int LowestRateHz = 8000;

    /// <summary>Highest sample rate that is read, in Hz.</summary>
    public const int HighestRateHz = 384000;

    /// <summary>What the header says.</summary>
    public abstract AudioFileInfo Info { get; }

    /// <summary>Chunks that are neither format, samples, <c>bext</c> nor filler; fetched when first asked for. Chunks
    /// over 64 MiB are left out.</summary>
    public abstract IReadOnlyList<WaveChunk> Chunks { get; }

    /// <summary>The first of these chunks with a name; the others are not fetched for it.</summary>
    /// <param name="id">Its four characters.</param>
    public abstract WaveChunk? Chunk(string id);

    /// <summary>SHA-256 of all samples of the file, in lower-case hexadecimal. Each sample counts with its lowest byte first
    /// (8-bit ones as WAV has them). So the same sound has the same hash in WAV, AIFF and FLAC.</summary>
    /// <exception cref="InvalidOperationException">The end has not been reached, or the hash was not asked for.</exception>
    public abstract string AudioSha256 { get; }

    /// <summary>SHA-256 of the whole file, in lower-case hexadecimal; null before the end, and where it was not asked for.</summary>
    public abstract string? FileSha256 { get; }

    /// <summary>A quick hash of the same bytes as <see cref="AudioSha256"/>. It tells whether samples are those that were read
    /// before. Null before the end, and where it was not asked for.</summary>
    public abstract UInt128? Likeness { get; }

    /// <summary>Opens a file and reads its header.</summary>
    /// <param name="path">The file.</param>
    /// <param name="hashes">Which hashes are taken as the file is read.</param>
    /// <exception cref="AudioFileException">The file is missing, unreadable, not audio of a supported kind, unfinished
    /// or shorter than its header says.</exception>
    public static AudioReader Open(string path, AudioHashes hashes = AudioHashes.Samples) => FileAudioReader.Open(path, hashes);

    /// <summary>Fills the block from the file's next frames. Channels the file does not have, and frames after its end,
    /// become silence.</summary>
    /// <returns>Frames read, 0 at the end.</returns>
    public abstract int Read(AudioBlock block);

    /// <summary>Fills the block from the file's next frames with some of its channels, in the order they are named.</summary>
    /// <param name="block">Where they go. It has at least as many channels; the others become silence.</param>
    /// <param name="channels">Channels of the file, from 0.</param>
    /// <returns>Frames read, 0 at the end.</returns>
    public abstract int Read(AudioBlock block, ReadOnlySpan<int> channels);

    /// <summary>Passes over frames; they still count for <see cref="AudioSha256"/>. Stops at the end.</summary>
    public abstract void Skip(long frames);

    public void Dispose()
    {
        Dispose(true);
        GC.SuppressFinalize(this);
    }

    protected virtual void Dispose(bool disposing)
    {
    }
}
