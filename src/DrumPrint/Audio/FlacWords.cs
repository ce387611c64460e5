using DrumPrint.Flac;

namespace DrumPrint.Audio;

/// <summary>Turns a decoded frame into the bytes WAV has: 8 bits without a sign, more with one, bits that fill no whole byte at the
/// top.</summary>
internal sealed class FlacWords
{
    private readonly int _channels;
    private readonly int _bits;
    private readonly int _wordBytes;
    private byte[] _words = [];
    private byte[] _forHash = [];
    private int _frames;

    /// <param name="stream">The stream.</param>
    /// <param name="wordBytes">Bytes of a sample.</param>
    public FlacWords(FlacStreamInfo stream, int wordBytes)
    {
        (_channels, _bits, _wordBytes) = (stream.Channels, stream.Bits, wordBytes);
    }

    // The hash of the stream is taken of samples with a sign whose bits stand at the bottom (RFC 9639, section 8.2).
    private bool IsAsHashed => _wordBytes > 1 && _bits == 8 * _wordBytes;

    /// <summary>Takes in a frame.</summary>
    public void Take(FlacFrames frames)
    {
        _frames = frames.Count;
        if (_words.Length < _frames * _channels * _wordBytes)
        {
            _words = new byte[_frames * _channels * _wordBytes];
            _forHash = IsAsHashed ? [] : new byte[_words.Length];
        }

        var flip = _wordBytes == 1 ? 0x80 : 0;
        for (var c = 0; c < _channels; c++)
        {
            var samples = frames.Channel(c);
            Put(samples, c, _words, (8 * _wordBytes) - _bits, flip);
            if (!IsAsHashed)
            {
                Put(samples, c, _forHash, 0, 0);
            }
        }
    }

    /// <summary>A part of the frame.</summary>
    public ReadOnlySpan<byte> Of(int frame, int frames) => _words.AsSpan(frame * _channels * _wordBytes, frames * _channels * _wordBytes);

    /// <summary>All of it as the hash of the stream takes it.</summary>
    public ReadOnlySpan<byte> ForHash() => (IsAsHashed ? _words : _forHash).AsSpan(0, _frames * _channels * _wordBytes);

    private void Put(ReadOnlySpan<long> samples, int channel, byte[] words, int shift, int flip)
    {
        var step = _channels * _wordBytes;
        var at = channel * _wordBytes;
        foreach (var sample in samples)
        {
            var word = (int)sample << shift;
            words[at] = (byte)(word ^ flip);
            for (var n = 1; n < _wordBytes; n++)
            {
                words[at + n] = (byte)(word >> (8 * n));
            }

            at += step;
        }
    }
}
