using System.Text;
using DrumPrint.Dsp;
using DrumPrint.Files;
using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Audio;

/// <summary>Streams the samples of one file, hashing as it goes.</summary>
internal sealed class FileAudioReader : AudioReader
{
    private const int ScratchSamples = 2048;
    private const long LargestExtraBytes = 64 << 20;

    private readonly SafeFileHandle _handle;
    private readonly AudioFileLayout _layout;
    private readonly HashingReader _samples;
    private readonly int _frameBytes;
    private readonly double[] _scratch;
    private readonly int[] _everyChannel;
    private ReadOnlyMemory<byte> _buffer;
    private long _framesLeft;
    private bool _isAtEnd;
    private string? _audioSha256;
    private string? _fileSha256;
    private UInt128? _likeness;
    private IReadOnlyList<WaveChunk>? _chunks;

    private FileAudioReader(SafeFileHandle handle, AudioFileLayout layout, AudioHashes hashes)
    {
        _handle = handle;
        _layout = layout;
        _samples = new HashingReader(handle, layout, hashes);
        _frameBytes = layout.FrameBytes;
        _everyChannel = [.. Enumerable.Range(0, Info.Channels)];
        _scratch = new double[Math.Max(Info.Channels, ScratchSamples)];
        _framesLeft = Info.Frames;
        NoteTheEnd();
    }

    public override AudioFileInfo Info => _layout.Info;

    public override IReadOnlyList<WaveChunk> Chunks => _chunks ??= ReadChunks();

    public override WaveChunk? Chunk(string id) => _layout.Extras.Where(c => c.Id == id && c.Bytes <= LargestExtraBytes).Take(1).Select(ReadChunk).FirstOrDefault();

    public override string AudioSha256 => _audioSha256 ?? throw new InvalidOperationException(_isAtEnd
        ? $"{Info.Path} was opened without asking for the hash of its samples."
        : $"{Info.Path} has been read up to {_framesLeft} frames before its end; its hash is known only at the end.");

    public override string? FileSha256 => _fileSha256;

    public override UInt128? Likeness => _likeness;

    public static new FileAudioReader Open(string path, AudioHashes hashes) => Open(path, (handle, layout) => new FileAudioReader(handle, layout, hashes));

    /// <summary>Opens a file for whoever reads it in an order of its own.</summary>
    public static T Open<T>(string path, Func<SafeFileHandle, AudioFileLayout, T> make)
    {
        ArgumentNullException.ThrowIfNull(path);
        SafeFileHandle? handle = null;
        try
        {
            handle = RegularFile.Open(path);
            return make(handle, Justified(handle, Usual(ReadLayout(handle, new FileView(handle, path)))));
        }
        catch (Exception e)
        {
            handle?.Dispose();
            if (FileTrouble.IsFileTrouble(e))
            {
                throw FileTrouble.Reading(path, e);
            }

            throw;
        }
    }

    public override int Read(AudioBlock block) => Read(block, _everyChannel.AsSpan(0, Math.Min(block.Channels, Info.Channels)));

    public override int Read(AudioBlock block, ReadOnlySpan<int> channels)
    {
        var frames = (int)Math.Min(block.Frames, _framesLeft);
        for (var done = 0; done < frames;)
        {
            var bytes = Fetch(frames - done);
            Decode(bytes, block.FirstChannels(channels.Length).Slice(done, bytes.Length / _frameBytes), channels);
            done += bytes.Length / _frameBytes;
        }

        for (var c = 0; c < block.Channels; c++)
        {
            block[c][(c < channels.Length ? frames : 0)..].Clear();
        }

        return frames;
    }

    public override void Skip(long frames)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frames);
        var left = Math.Min(frames, _framesLeft);
        if (_samples.TryPass(left))
        {
            _framesLeft -= left;
            NoteTheEnd();
            return;
        }

        while (left > 0)
        {
            left -= Fetch((int)Math.Min(left, int.MaxValue)).Length / _frameBytes;
        }
    }

    protected override void Dispose(bool disposing)
    {
        if (disposing)
        {
            _samples.Dispose();
            _handle.Dispose();
        }

        base.Dispose(disposing);
    }

    // A rate that no recorder has would make a short file hours long, and what is sized by time would grow without bound.
    private static AudioFileLayout Usual(AudioFileLayout layout) => layout.Info.SampleRate is >= LowestRateHz and <= HighestRateHz
        ? layout
        : throw AudioFileProblems.UnusualRate(layout.Info.Path, layout.Info.SampleRate);

    private static AudioFileLayout Justified(SafeFileHandle handle, AudioFileLayout layout)
    {
        var info = layout.Info;
        return layout.Flac is null && !info.Encoding.IsFloat() && info.Encoding != SampleEncoding.Pcm8 && layout.ByteOrder == ByteOrder.LittleEndian
            && LowBits.Are(handle, layout.Samples, info.Encoding.Bytes(), info.ValidBits, info.Path)
            ? layout with { Info = info with { IsLowJustified = true } }
            : layout;
    }

    private static AudioFileLayout ReadLayout(SafeFileHandle handle, FileView file)
    {
        if (file.Length < 12)
        {
            throw AudioFileProblems.NotAudio(file, file.Length == 0 ? "it is empty" : $"it holds {file.Length} bytes only");
        }

        var id = file.ReadId(0);
        return id switch
        {
            _ when WaveHeaderReader.Recognises(id) => WaveHeaderReader.Read(file),
            _ when AiffHeaderReader.Recognises(id) => AiffHeaderReader.Read(file),
            _ when FlacHeaderReader.Recognises(id) => FlacHeaderReader.Read(file, handle),
            "OggS" => throw AudioFileProblems.NotAudio(file, "it looks like Ogg. Convert it to WAV first"),
            "caff" => throw AudioFileProblems.NotAudio(file, "it looks like CAF. Convert it to WAV first"),
            _ when id.StartsWith("ID3", StringComparison.Ordinal) => throw AudioFileProblems.NotAudio(file, "it looks like MP3. Convert it to WAV first"),
            _ => throw AudioFileProblems.NotAudio(file, $"it begins with {Shown(id)}"),
        };
    }

    private static string Shown(string id)
    {
        var isText = id.All(c => c is >= ' ' and <= '~');
        return isText ? $"'{id}'" : $"the bytes {Convert.ToHexString(Encoding.Latin1.GetBytes(id))}";
    }

    private void Decode(ReadOnlySpan<byte> bytes, AudioBlock block, ReadOnlySpan<int> channels)
    {
        if (Info.Channels == 1)
        {
            if (block.Channels == 1)
            {
                SampleDecoder.Decode(bytes, Info.Encoding, block[0]);
            }

            return;
        }

        var most = _scratch.Length / Info.Channels;
        for (var done = 0; done < block.Frames;)
        {
            var part = block.Slice(done, Math.Min(most, block.Frames - done));
            var frames = _scratch.AsSpan(0, part.Frames * Info.Channels);
            SampleDecoder.Decode(bytes[(done * _frameBytes)..], Info.Encoding, frames);
            for (var c = 0; c < part.Channels; c++)
            {
                Interleaving.Take(frames, Info.Channels, channels[c], part[c]);
            }

            done += part.Frames;
        }
    }

    /// <summary>Takes the next frames out of the buffer, refilling it when it is used up.</summary>
    private ReadOnlySpan<byte> Fetch(int frames)
    {
        if (_buffer.IsEmpty)
        {
            _buffer = _samples.Next();
        }

        var count = (int)Math.Min((long)frames * _frameBytes, _buffer.Length);
        var fetched = _buffer[..count];
        _buffer = _buffer[count..];
        _framesLeft -= count / _frameBytes;
        NoteTheEnd();
        return fetched.Span;
    }

    private void NoteTheEnd()
    {
        if (_framesLeft == 0)
        {
            _isAtEnd = true;
            _audioSha256 = _samples.HashAtEnd();
            _fileSha256 = _samples.FileHashAtEnd();
            _likeness = _samples.LikenessAtEnd();
        }
    }

    private List<WaveChunk> ReadChunks() => [.. _layout.Extras.Where(c => c.Bytes <= LargestExtraBytes).Select(ReadChunk)];

    private WaveChunk ReadChunk(ChunkPlace place) => new(place.Id, new FileView(_handle, Info.Path).Read(place.Offset, place.Bytes));
}
