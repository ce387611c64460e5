using System.Buffers.Binary;
using System.Security.Cryptography;
using DrumPrint.Audio;
using DrumPrint.Dsp;

namespace DrumPrint.Delivering;

/// <summary>Hashes samples as one encoding holds them, whole and second by second, whatever encoding they come in.</summary>
/// <remarks>So a print that was turned from 24 bit to float, which holds the same numbers, has the hash of the print.</remarks>
internal sealed class SoundSums : IDisposable
{
    /// <summary>Hexadecimal digits of the hash of a second: 64 bits are enough to tell seconds of a few songs apart.</summary>
    public const int PieceDigits = 16;

    private readonly SampleEncoding _encoding;
    private readonly int _channels;
    private readonly int _pieceFrames;
    private readonly IncrementalHash _whole = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private readonly IncrementalHash _piece = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private readonly List<string> _pieces = [];
    private readonly List<bool> _sounds = [];
    private byte[] _bytes = [];
    private int _inPiece;
    private bool _isHeard;

    /// <param name="encoding">The encoding whose bytes are hashed.</param>
    /// <param name="channels">Number of channels.</param>
    /// <param name="rateHz">Frames of a piece.</param>
    public SoundSums(SampleEncoding encoding, int channels, int rateHz)
    {
        _encoding = encoding;
        _channels = channels;
        _pieceFrames = rateHz;
    }

    /// <summary>Whether every sample so far can be held by the encoding as it is.</summary>
    public bool IsExact { get; private set; } = true;

    /// <summary>Hash of each whole second.</summary>
    public IReadOnlyList<string> Pieces => _pieces;

    /// <summary>Whether each whole second holds anything but silence.</summary>
    public IReadOnlyList<bool> Sounds => _sounds;

    /// <summary>Reads a whole file.</summary>
    /// <param name="reader">At its start.</param>
    /// <param name="encoding">The encoding whose bytes are hashed.</param>
    /// <param name="cancel">Stops it.</param>
    public static SoundSums Of(AudioReader reader, SampleEncoding encoding, CancellationToken cancel)
    {
        var info = reader.Info;
        var sums = new SoundSums(encoding, info.Channels, info.SampleRate);
        var channels = new double[info.Channels][];
        for (var c = 0; c < channels.Length; c++)
        {
            channels[c] = new double[1 << 14];
        }

        var block = new AudioBlock(channels, 0, 1 << 14);
        while (reader.Read(block) is var frames and > 0)
        {
            cancel.ThrowIfCancellationRequested();
            sums.Add(block.Slice(0, frames));
        }

        return sums;
    }

    public void Add(AudioBlock block)
    {
        for (var at = 0; at < block.Frames;)
        {
            var frames = Math.Min(block.Frames - at, _pieceFrames - _inPiece);
            var bytes = Encode(block.Slice(at, frames));
            _whole.AppendData(bytes);
            _piece.AppendData(bytes);
            at += frames;
            _inPiece += frames;
            if (_inPiece == _pieceFrames)
            {
                _pieces.Add(Convert.ToHexStringLower(_piece.GetHashAndReset())[..PieceDigits]);
                _sounds.Add(_isHeard);
                (_inPiece, _isHeard) = (0, false);
            }
        }
    }

    /// <summary>Hash of all; to be asked for once, at the end.</summary>
    public string AudioSha256() => Convert.ToHexStringLower(_whole.GetHashAndReset());

    public void Dispose()
    {
        _whole.Dispose();
        _piece.Dispose();
    }

    private ReadOnlySpan<byte> Encode(AudioBlock block)
    {
        var width = _encoding.Bytes();
        var length = block.Frames * _channels * width;
        if (_bytes.Length < length)
        {
            _bytes = new byte[length];
        }

        for (var c = 0; c < _channels; c++)
        {
            Write(block[c], _bytes.AsSpan(0, length), c * width, _channels * width);
        }

        return _bytes.AsSpan(0, length);
    }

    // Those of the prints have loops of their own: all that is delivered comes by here.
    private void Write(ReadOnlySpan<double> samples, Span<byte> target, int at, int stride)
    {
        switch (_encoding)
        {
            case SampleEncoding.Pcm24 when IsExact:
                Write24(samples, target, at, stride);
                return;
            case SampleEncoding.Float32:
                WriteFloat32(samples, target, at, stride);
                return;
            default:
                foreach (var sample in samples)
                {
                    Write(sample, target.Slice(at, _encoding.Bytes()));
                    at += stride;
                }

                return;
        }
    }

    private void Write24(ReadOnlySpan<double> samples, Span<byte> target, int at, int stride)
    {
        const double steps = 1 << 23;
        var (isHeard, isExact) = (_isHeard, true);
        foreach (var sample in samples)
        {
            var exact = sample * steps;
            var value = (int)exact; // toward zero; a number that is none, or does not fit, is not the same again
            isExact &= value == exact && value is >= -(1 << 23) and < 1 << 23;
            isHeard |= sample != 0;
            target[at + 2] = (byte)(value >> 16);
            target[at + 1] = (byte)(value >> 8);
            target[at] = (byte)value;
            at += stride;
        }

        (_isHeard, IsExact) = (isHeard, IsExact && isExact);
    }

    private void WriteFloat32(ReadOnlySpan<double> samples, Span<byte> target, int at, int stride)
    {
        var (isHeard, isExact) = (_isHeard, true);
        foreach (var sample in samples)
        {
            var single = (float)sample;
            isExact &= single == sample;
            isHeard |= sample != 0;
            BinaryPrimitives.WriteSingleLittleEndian(target[at..], single);
            at += stride;
        }

        (_isHeard, IsExact) = (isHeard, IsExact && isExact);
    }

    private void Write(double sample, Span<byte> target)
    {
        _isHeard |= sample != 0;
        if (_encoding == SampleEncoding.Float64)
        {
            BinaryPrimitives.WriteDoubleLittleEndian(target, sample);
            return;
        }

        var bits = 8 * target.Length;
        var steps = sample * (1L << (bits - 1));
        var whole = Math.Round(steps);
        IsExact &= whole == steps && whole >= -(1L << (bits - 1)) && whole < 1L << (bits - 1);
        if (!IsExact)
        {
            return; // what is hashed from here on means nothing
        }

        var value = (int)whole + (_encoding == SampleEncoding.Pcm8 ? 128 : 0);
        for (var i = 0; i < target.Length; i++)
        {
            target[i] = (byte)(value >> (8 * i));
        }
    }
}
