using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Files;

namespace DrumPrint.Audio;

/// <summary>Writes a Broadcast Wave file under a temporary name, and gives it its own name only when it is whole.</summary>
/// <remarks>
/// Until <see cref="Finish"/> its header is blank, so that nothing takes it for a finished file. The header keeps
/// <see cref="SpareBytes"/> to spare. The <c>bext</c> and extra chunks given at the end may be that much longer than those given
/// at the start. Samples begin at the same offset either way.
/// </remarks>
public sealed class WaveWriter : IDisposable
{
    /// <summary>Room for growth in the header, in bytes.</summary>
    public const int SpareBytes = 1024;

    private const int ScratchSamples = 2048;

    private readonly StagedFile _file;
    private readonly WaveHeader _header;
    private readonly SampleEncoding _encoding;
    private readonly BroadcastExtension? _broadcast;
    private readonly IReadOnlyList<WaveChunk> _chunks;
    private readonly int _headerBytes;
    private readonly HashingWriter _samples;
    private readonly double[] _scratch;
    private string? _audioSha256;
    private string? _fileSha256;
    private bool _isPublished;
    private bool _isDisposed;

    private WaveWriter(StagedFile file, AudioFormat format, SampleEncoding encoding, BroadcastExtension? broadcast, IReadOnlyList<WaveChunk> chunks, int headerBytes, long leastFrames)
    {
        Format = format;
        _file = file;
        _header = new WaveHeader(format, encoding);
        _encoding = encoding;
        _broadcast = broadcast;
        _chunks = chunks;
        _headerBytes = headerBytes;
        _samples = new HashingWriter(file, headerBytes, _header.FrameBytes, leastFrames * _header.FrameBytes);
        _scratch = new double[Math.Max(format.Channels, ScratchSamples)];
    }

    /// <summary>The final name.</summary>
    public string Path => _file.Path;

    /// <summary>The name while it is being written.</summary>
    public string PartialPath => _file.TemporaryPath;

    /// <summary>Rate and channels.</summary>
    public AudioFormat Format { get; }

    /// <summary>Frames given so far.</summary>
    public long FramesWritten { get; private set; }

    /// <summary>SHA-256 of the sample bytes, in lower-case hexadecimal.</summary>
    /// <exception cref="InvalidOperationException">The file is not finished.</exception>
    public string AudioSha256 => _audioSha256 ?? throw NotFinished();

    /// <summary>SHA-256 of the whole file, in lower-case hexadecimal; worked out when first asked for.</summary>
    /// <exception cref="InvalidOperationException">The file is not finished.</exception>
    public string FileSha256 => _fileSha256 ??= _audioSha256 is null ? throw NotFinished() : FileHash.Sha256(_isPublished ? Path : PartialPath);

    /// <summary>Begins a file.</summary>
    /// <param name="path">The final name.</param>
    /// <param name="format">Rate and channels.</param>
    /// <param name="encoding">How samples are stored.</param>
    /// <param name="broadcast">Contents of <c>bext</c>, where wanted.</param>
    /// <param name="expectedFrames">Length as far as known; the disk must have this much room.</param>
    /// <param name="chunks">Extra chunks to stand before the samples.</param>
    /// <param name="leastFrames">Frames that <see cref="Finish"/> will surely keep: these are hashed as they pass, the others at
    /// the end; null for all that is written.</param>
    /// <exception cref="AudioFileException">The file cannot be made.</exception>
    public static WaveWriter Create(string path, AudioFormat format, SampleEncoding encoding, BroadcastExtension? broadcast, long expectedFrames, IReadOnlyList<WaveChunk>? chunks = null, long? leastFrames = null) =>
        Create(FileSteps.Plain, path, format, encoding, broadcast, expectedFrames, chunks, leastFrames);

    /// <summary>Begins a file that is written by given steps.</summary>
    internal static WaveWriter Create(FileSteps steps, string path, AudioFormat format, SampleEncoding encoding, BroadcastExtension? broadcast, long expectedFrames, IReadOnlyList<WaveChunk>? chunks = null, long? leastFrames = null)
    {
        ArgumentNullException.ThrowIfNull(path);
        ArgumentOutOfRangeException.ThrowIfLessThan(format.SampleRate, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(format.Channels, 1);
        ArgumentOutOfRangeException.ThrowIfNegative(expectedFrames);
        ArgumentOutOfRangeException.ThrowIfNegative(leastFrames ?? 0);
        var header = new WaveHeader(format, encoding);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(header.FrameBytes, ushort.MaxValue);
        chunks ??= [];
        var headerBytes = header.LeastBytes(broadcast, chunks) + SpareBytes;
        try
        {
            var file = StagedFile.Create(path, headerBytes + (expectedFrames * header.FrameBytes), steps);
            return new WaveWriter(file, format, encoding, broadcast, chunks, headerBytes, leastFrames ?? (long.MaxValue / header.FrameBytes));
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Writing(path, e);
        }
    }

    /// <summary>Appends a block. Integer samples are meant to be on the encoding's grid already; they stop at full
    /// scale.</summary>
    /// <exception cref="AudioFileException">A sample is not a number or infinite, or the disk fails.</exception>
    public void Write(AudioBlock block)
    {
        ThrowIfNotOpen();
        if (block.Channels != Format.Channels)
        {
            throw new ArgumentException($"{Path} has {Format.Channels} channels, the block {block.Channels}.", nameof(block));
        }

        ThrowIfNotFinite(block);
        var most = _scratch.Length / Format.Channels;
        for (var done = 0; done < block.Frames;)
        {
            var room = _samples.Room;
            var part = block.Slice(done, Math.Min(Math.Min(most, block.Frames - done), room.Length / _header.FrameBytes));
            SampleEncoder.Encode(Frames(part), _encoding, room);
            _samples.Advance(part.Frames * _header.FrameBytes);
            done += part.Frames;
        }

        FramesWritten += block.Frames;
    }

    /// <summary>Cuts the file to a length, writes its header and brings everything to the disk. It keeps its temporary
    /// name.</summary>
    /// <param name="frames">Length to keep, at most what was written.</param>
    /// <param name="broadcast">Replaces the <c>bext</c> given at the start.</param>
    /// <param name="chunks">Replace the extra chunks given at the start.</param>
    /// <exception cref="ArgumentException">The chunks have outgrown the room kept for them.</exception>
    /// <exception cref="AudioFileException">The disk fails.</exception>
    public void Finish(long frames, BroadcastExtension? broadcast = null, IReadOnlyList<WaveChunk>? chunks = null) => FinishWith(frames, _ => (broadcast, chunks));

    /// <summary>The same, where what stands in the header depends on the samples. A <see cref="FileSeal"/> in it is closed.</summary>
    /// <param name="frames">Length to keep, at most what was written.</param>
    /// <param name="contents">Told the hash of the samples, gives what replaces <c>bext</c> and extra chunks; null for those given at the start.</param>
    /// <exception cref="ArgumentException">The chunks have outgrown the room kept for them.</exception>
    /// <exception cref="AudioFileException">The disk fails.</exception>
    internal void FinishWith(long frames, Func<string, (BroadcastExtension? Broadcast, IReadOnlyList<WaveChunk>? Chunks)> contents)
    {
        ThrowIfNotOpen();
        ArgumentOutOfRangeException.ThrowIfNegative(frames);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(frames, FramesWritten);
        var dataBytes = frames * _header.FrameBytes;
        var audioSha256 = Complete(dataBytes);
        var header = Header(frames, contents(audioSha256));
        try
        {
            _file.SetLength(header.Length + dataBytes + (dataBytes % 2));
            if (dataBytes % 2 != 0)
            {
                _file.WriteAt(header.Length + dataBytes, [0]);
            }

            _file.WriteAt(0, header);
            _file.Complete();
            _audioSha256 = audioSha256;
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Writing(Path, e);
        }
    }

    /// <summary>Gives the finished file its name, in place of an older file.</summary>
    /// <exception cref="AudioFileException">The name cannot be taken.</exception>
    public void Publish()
    {
        ObjectDisposedException.ThrowIf(_isDisposed, this);
        if (_audioSha256 is null)
        {
            throw NotFinished();
        }

        try
        {
            _file.Commit();
            _isPublished = true;
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Writing(Path, e);
        }
    }

    public void Dispose()
    {
        if (_isDisposed)
        {
            return;
        }

        _isDisposed = true;
        _samples.Dispose();
        _file.Dispose();
    }

    private string Complete(long dataBytes)
    {
        try
        {
            return _samples.Complete(dataBytes);
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Writing(Path, e);
        }
    }

    private byte[] Header(long frames, (BroadcastExtension? Broadcast, IReadOnlyList<WaveChunk>? Chunks) contents)
    {
        var header = _header.ToBytes(frames, contents.Broadcast ?? _broadcast, contents.Chunks ?? _chunks, _headerBytes);
        FileSeal.Close(header);
        return header ?? throw new ArgumentException($"{Path}: the header has outgrown the {SpareBytes} bytes kept for it.");
    }

    private ReadOnlySpan<double> Frames(AudioBlock block)
    {
        if (block.Channels == 1)
        {
            return block[0];
        }

        var frames = _scratch.AsSpan(0, block.Frames * block.Channels);
        if (block.Channels == 2)
        {
            Interleaving.PutBoth(block[0], block[1], frames);
            return frames;
        }

        for (var c = 0; c < block.Channels; c++)
        {
            Interleaving.Put(block[c], block.Channels, c, frames);
        }

        return frames;
    }

    private void ThrowIfNotFinite(AudioBlock block)
    {
        for (var c = 0; c < block.Channels; c++)
        {
            var n = NotFinite.IndexIn(block[c]);
            if (n >= 0)
            {
                throw new AudioFileException(Path, $"the render went wrong: frame {FramesWritten + n} of channel {c + 1} is not a number.");
            }
        }
    }

    private void ThrowIfNotOpen()
    {
        ObjectDisposedException.ThrowIf(_isDisposed, this);
        if (_audioSha256 is not null)
        {
            throw new InvalidOperationException($"{Path} is finished.");
        }
    }

    private InvalidOperationException NotFinished() => new($"{Path} is not finished.");
}
