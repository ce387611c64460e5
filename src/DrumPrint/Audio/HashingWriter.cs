using System.Security.Cryptography;
using DrumPrint.Files;

namespace DrumPrint.Audio;

/// <summary>Writes samples to a file in large requests, one buffer behind, hashing them as they pass.</summary>
internal sealed class HashingWriter : IDisposable
{
    private const int BufferBytes = 1 << 18;

    private readonly StagedFile _file;
    private readonly int _frameBytes;
    private readonly long _start;
    private readonly long _sureBytes;
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private readonly EarlyStep _store;
    private readonly EarlyFlush _flush;
    private byte[] _current;
    private byte[] _behind;
    private int _currentBytes;
    private int _behindBytes;
    private long _bytesStored;
    private long _bytesHashed;

    /// <param name="file">A file that is being written.</param>
    /// <param name="start">Where the samples begin.</param>
    /// <param name="frameBytes">Bytes of one frame.</param>
    /// <param name="sureBytes">Bytes that will surely be kept; only these are hashed as they pass.</param>
    public HashingWriter(StagedFile file, long start, int frameBytes, long sureBytes)
    {
        _file = file;
        _start = start;
        _frameBytes = frameBytes;
        _sureBytes = sureBytes;
        _store = new EarlyStep(StoreBehind);
        _flush = new EarlyFlush(file.Handle);
        var bufferBytes = Math.Max(1, BufferBytes / frameBytes) * frameBytes;
        _current = GC.AllocateUninitializedArray<byte>(bufferBytes);
        _behind = GC.AllocateUninitializedArray<byte>(bufferBytes);
    }

    /// <summary>Room for the next frames, at least one; to be filled, and then taken with <see cref="Advance"/>.</summary>
    public Span<byte> Room => _current.AsSpan(_currentBytes);

    /// <summary>Takes what was put at the start of <see cref="Room"/>.</summary>
    public void Advance(int bytes)
    {
        _currentBytes += bytes;
        if (_current.Length - _currentBytes < _frameBytes)
        {
            Store();
        }
    }

    /// <summary>Hands everything to the operating system, and returns the hash of the
    /// first bytes.</summary>
    public string Complete(long bytes)
    {
        Store();
        _store.Complete();
        _flush.Dispose();
        if (bytes < _bytesHashed)
        {
            _hash.GetHashAndReset();
            _bytesHashed = 0;
        }

        HashStored(bytes);
        return Convert.ToHexStringLower(_hash.GetHashAndReset());
    }

    public void Dispose()
    {
        _store.Dispose();
        _flush.Dispose();
        _hash.Dispose();
    }

    private void Store()
    {
        _store.Complete();
        (_current, _behind) = (_behind, _current);
        _behindBytes = _currentBytes;
        _currentBytes = 0;
        _store.Begin();
    }

    private void StoreBehind()
    {
        var bytes = _behind.AsSpan(0, _behindBytes);
        try
        {
            _file.WriteAt(_start + _bytesStored, bytes);
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Writing(_file.Path, e);
        }

        if (_bytesHashed == _bytesStored)
        {
            var sure = bytes[..(int)Math.Clamp(_sureBytes - _bytesHashed, 0, bytes.Length)];
            _hash.AppendData(sure);
            _bytesHashed += sure.Length;
        }

        _bytesStored += bytes.Length;
        _flush.Offer(_bytesStored);
    }

    private void HashStored(long end)
    {
        while (_bytesHashed < end)
        {
            var part = _current.AsSpan(0, (int)Math.Min(_current.Length, end - _bytesHashed));
            FileView.ReadExactly(_file.Handle, part, _start + _bytesHashed, _file.Path);
            _hash.AppendData(part);
            _bytesHashed += part.Length;
        }
    }
}
