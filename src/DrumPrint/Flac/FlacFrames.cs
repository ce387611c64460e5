using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Flac;

/// <summary>Decodes the frames of a stream one after another (RFC 9639, section 9). It holds one frame at a time.</summary>
/// <remarks>Strict: every checksum is verified, every frame has to follow on the one before, and to be what the stream's header says.</remarks>
internal sealed class FlacFrames
{
    private const int LeftSide = 8;
    private const int SideRight = 9;
    private const int MiddleSide = 10;

    private readonly FlacBits _bits;
    private readonly FlacStreamInfo _stream;
    private readonly long[][] _samples;
    private bool? _isVariable;

    public FlacFrames(SafeFileHandle handle, FlacStreamInfo stream)
    {
        (_bits, _stream) = (new FlacBits(handle), stream);
        _samples = [.. Enumerable.Range(0, stream.Channels).Select(_ => Array.Empty<long>())];
        _bits.MoveTo(stream.Offset);
    }

    /// <summary>Number of the frame that comes next, from 0.</summary>
    public long Number { get; private set; }

    /// <summary>First sample of the frame that comes next.</summary>
    public long NextSample { get; private set; }

    /// <summary>Where in the file it is.</summary>
    public long NextOffset => _bits.Offset;

    /// <summary>Samples per channel of the frame that was decoded last.</summary>
    public int Count { get; private set; }

    /// <summary>Whether the file has no more bytes.</summary>
    public bool IsAtEnd => _bits.IsAtEnd;

    /// <summary>A channel of the frame that was decoded last.</summary>
    public ReadOnlySpan<long> Channel(int channel) => _samples[channel].AsSpan(0, Count);

    /// <summary>Goes to a frame that was come by before.</summary>
    public void MoveTo(long number, long sample, long offset)
    {
        (Number, NextSample, Count) = (number, sample, 0);
        _bits.MoveTo(offset);
    }

    /// <summary>Whether the header of another frame stands where the stream should be over.</summary>
    public bool GoesOn()
    {
        try
        {
            return !IsAtEnd && FlacFrameHeader.Read(_bits, _stream) is { Samples: > 0 };
        }
        catch (FlacDamageException)
        {
            return false;
        }
    }

    /// <summary>Decodes the next frame.</summary>
    /// <exception cref="FlacDamageException">It is damaged, missing or cut off.</exception>
    public void Next()
    {
        Count = 0;
        _bits.Mark();
        var header = FlacFrameHeader.Read(_bits, _stream);
        Follow(header);
        for (var c = 0; c < _stream.Channels; c++)
        {
            var isSide = header.Sides is LeftSide or MiddleSide ? c == 1 : header.Sides == SideRight && c == 0;
            if (_samples[c].Length < header.Samples)
            {
                _samples[c] = new long[header.Samples];
            }

            FlacSubframe.Read(_bits, _stream.Bits + (isSide ? 1 : 0), _samples[c].AsSpan(0, header.Samples));
        }

        _bits.Align();
        var crc = _bits.Crc();
        if (_bits.Read(16) != crc)
        {
            throw new FlacDamageException("its checksum (CRC-16) does not match");
        }

        if (header.Sides >= LeftSide)
        {
            Unfold(header.Sides, _samples[0].AsSpan(0, header.Samples), _samples[1].AsSpan(0, header.Samples));
            FlacSubframe.Check(_samples[0].AsSpan(0, header.Samples), _stream.Bits);
            FlacSubframe.Check(_samples[1].AsSpan(0, header.Samples), _stream.Bits);
        }

        Count = header.Samples;
        NextSample += Count;
        Number++;
    }

    private void Follow(FlacFrameHeader header)
    {
        _isVariable ??= header.IsVariable;
        if (_isVariable != header.IsVariable)
        {
            throw new FlacDamageException("it is numbered in another way than the frames before it");
        }

        var begins = header.IsVariable ? header.Number : header.Number * _stream.MostBlock;
        if (begins != NextSample)
        {
            throw new FlacDamageException(FormattableString.Invariant($"by its number it begins at sample {begins}, but the one before ends at {NextSample}"));
        }
    }

    // Section 4.2: two channels from one of them, or their mean, and their difference.
    private static void Unfold(int sides, Span<long> first, Span<long> second)
    {
        for (var n = 0; n < first.Length; n++)
        {
            switch (sides)
            {
                case LeftSide:
                    second[n] = first[n] - second[n];
                    break;
                case SideRight:
                    first[n] += second[n];
                    break;
                default:
                    var (middle, side) = ((first[n] << 1) | (second[n] & 1), second[n]);
                    (first[n], second[n]) = ((middle + side) >> 1, (middle - side) >> 1);
                    break;
            }
        }
    }
}
