using System.IO.Hashing;
using System.Security.Cryptography;
using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Audio;

/// <summary>Reads the samples of a file in large requests, one buffer ahead, and hashes them as they pass. The hash has one byte
/// order. So the same samples have one hash, however a file holds them.</summary>
internal sealed class HashingReader : IDisposable
{
    private const int BufferBytes = 1 << 18;

    private readonly SafeFileHandle _handle;
    private readonly AudioFileLayout _layout;
    private readonly SampleBytes _samples;
    private readonly int _frameBytes;
    private readonly IncrementalHash? _hash;
    private readonly IncrementalHash? _fileHash;
    private readonly XxHash128? _likeness;
    private readonly EarlyStep _fetch;
    private readonly int _bufferBytes;
    private byte[] _current = [];
    private byte[] _ahead = [];
    private int _aheadBytes;
    private long _bytesFetched;
    private bool _hasBegun;

    /// <param name="handle">An open file.</param>
    /// <param name="layout">Where things are in it.</param>
    /// <param name="hashes">What is hashed, all in the same pass.</param>
    public HashingReader(SafeFileHandle handle, AudioFileLayout layout, AudioHashes hashes)
    {
        _handle = handle;
        _layout = layout;
        _samples = layout.Open(handle, proves: true);
        _frameBytes = layout.FrameBytes;
        _hash = hashes.HasFlag(AudioHashes.Samples) ? IncrementalHash.CreateHash(HashAlgorithmName.SHA256) : null;
        _likeness = hashes.HasFlag(AudioHashes.Likeness) ? new XxHash128() : null;
        if (hashes.HasFlag(AudioHashes.File))
        {
            _fileHash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            HashRest(0, _samples.AreOfFile ? layout.Samples.Offset : 0);
        }

        _fetch = new EarlyStep(FetchAhead);
        _bufferBytes = (int)Math.Min(Math.Max(1, BufferBytes / _frameBytes) * (long)_frameBytes, layout.AllBytes);
    }

    /// <summary>The next samples, a whole number of frames in little-endian order; empty at the end. The memory holds until
    /// the next call.</summary>
    public ReadOnlyMemory<byte> Next()
    {
        if (!_hasBegun)
        {
            _hasBegun = true;
            _current = GC.AllocateUninitializedArray<byte>(_bufferBytes);
            _ahead = GC.AllocateUninitializedArray<byte>(_bufferBytes);
            _fetch.Begin();
        }

        _fetch.Complete();
        (_current, _ahead) = (_ahead, _current);
        var bytes = _current.AsMemory(0, _aheadBytes);
        _aheadBytes = 0;
        if (_bytesFetched < _layout.AllBytes)
        {
            _fetch.Begin();
        }

        return bytes;
    }

    /// <summary>Passes over frames at the start without reading them, where no hash is taken.</summary>
    /// <param name="frames">How many; no more than there are.</param>
    /// <returns>False where they must be read.</returns>
    public bool TryPass(long frames)
    {
        if (_hasBegun || _hash is not null || _likeness is not null || _fileHash is not null)
        {
            return false;
        }

        _bytesFetched += frames * _frameBytes;
        return true;
    }

    /// <summary>Hash of all samples; to be called once, after the end; null where it is not taken.</summary>
    public string? HashAtEnd() => _hash is null ? null : Convert.ToHexStringLower(_hash.GetHashAndReset());

    /// <summary>Quick hash of all samples; to be called once, after the end; null where it is not taken.</summary>
    public UInt128? LikenessAtEnd() => _likeness?.GetCurrentHashAsUInt128();

    /// <summary>Hash of the whole file; to be called once, after the end; null where it is not taken.</summary>
    public string? FileHashAtEnd()
    {
        if (_fileHash is null)
        {
            return null;
        }

        HashRest(_samples.AreOfFile ? _layout.Samples.End : 0, RandomAccess.GetLength(_handle));
        return Convert.ToHexStringLower(_fileHash.GetHashAndReset());
    }

    public void Dispose()
    {
        _fetch.Dispose();
        _samples.Dispose();
        _fileHash?.Dispose();
        _hash?.Dispose();
    }

    private void FetchAhead()
    {
        var bytes = _ahead.AsSpan(0, (int)Math.Min(_bufferBytes, _layout.AllBytes - _bytesFetched));
        _samples.Fetch(_bytesFetched / _frameBytes, bytes);
        if (_samples.AreOfFile)
        {
            _fileHash?.AppendData(bytes);
        }

        _samples.Arrange(bytes);
        _hash?.AppendData(bytes);
        _likeness?.Append(bytes);
        _bytesFetched += bytes.Length;
        _aheadBytes = bytes.Length;
    }

    // What lies before or after the samples; all of a file whose samples are coded.
    private void HashRest(long start, long end)
    {
        if (end < start)
        {
            throw new AudioFileException(_layout.Info.Path, "the file became shorter while it was read.");
        }

        var part = new byte[Math.Min(end - start, BufferBytes)];
        for (var bytes = 0; start < end; start += bytes)
        {
            bytes = (int)Math.Min(part.Length, end - start);
            FileView.ReadExactly(_handle, part.AsSpan(0, bytes), start, _layout.Info.Path);
            _fileHash!.AppendData(part, 0, bytes);
        }
    }
}
