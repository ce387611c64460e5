using System.Buffers.Binary;
using System.Numerics;
using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Flac;

/// <summary>Reads bits of a file, highest first, through a small buffer, and takes the checksum of what passes.</summary>
/// <param name="handle">The open file.</param>
internal sealed class FlacBits(SafeFileHandle handle)
{
    private const int BufferBytes = 1 << 16;
    private const int WordBits = 64;

    private readonly byte[] _buffer = new byte[BufferBytes];

    // The next bits stand at the top; what is below the count is no bit, or the one that comes next in the file.
    private ulong _word;
    private int _bits;

    private int _at;
    private int _held;
    private long _heldEnd;
    private int _markedAt;
    private ushort _crc;

    /// <summary>Where in the file the next bit is; to be asked at whole bytes.</summary>
    public long Offset => _heldEnd - _held + Unread;

    // The first byte in the buffer of which a bit has not been read.
    private int Unread => ((8 * _at) - _bits) / 8;

    /// <summary>Goes to a place in the file.</summary>
    public void MoveTo(long offset)
    {
        (_word, _bits, _at, _held, _markedAt) = (0, 0, 0, 0, 0);
        _heldEnd = offset;
    }

    /// <summary>Whether the file has no more bits.</summary>
    public bool IsAtEnd => _bits == 0 && _at == _held && !FillBuffer();

    /// <summary>Begins a checksum with the next byte.</summary>
    public void Mark() => (_markedAt, _crc) = (Unread, 0);

    /// <summary>The checksum of the whole bytes read since it was begun.</summary>
    public ushort Crc()
    {
        _crc = FlacCrc.Add16(_crc, _buffer.AsSpan(_markedAt, Unread - _markedAt));
        _markedAt = Unread;
        return _crc;
    }

    /// <summary>Reads up to 32 bits as a number of 0 or more.</summary>
    public uint Read(int count)
    {
        if (_bits < count)
        {
            Fill(count);
        }

        var value = (uint)(_word >> 1 >> (WordBits - 1 - count));
        _word <<= count;
        _bits -= count;
        return value;
    }

    /// <summary>Reads up to 33 bits as a number with a sign.</summary>
    public long ReadSigned(int count)
    {
        if (count == 0)
        {
            return 0;
        }

        if (_bits < count)
        {
            Fill(count);
        }

        var value = (long)_word >> (WordBits - count);
        _word <<= count;
        _bits -= count;
        return value;
    }

    /// <summary>Counts zeros up to the next one, and passes it.</summary>
    /// <param name="most">Most zeros that mean something.</param>
    public uint ReadUnary(uint most)
    {
        var zeros = 0UL;
        while (true)
        {
            if (_bits == 0)
            {
                Fill(1);
            }

            var here = BitOperations.LeadingZeroCount(_word);
            if (here < _bits)
            {
                zeros += (ulong)here;
                _word = _word << here << 1;
                _bits -= here + 1;
                return zeros <= most ? (uint)zeros : throw TooLong();
            }

            zeros += (ulong)_bits;
            (_word, _bits) = (0, 0);
            if (zeros > most)
            {
                throw TooLong();
            }
        }

        static FlacDamageException TooLong() => new("a difference is larger than 32 bits");
    }

    /// <summary>Passes over the bits up to a whole byte, which are zeros.</summary>
    public void Align()
    {
        if (Read(_bits % 8) != 0)
        {
            throw new FlacDamageException("the bits that fill up its last byte are not zero");
        }
    }

    private void Fill(int count)
    {
        while (_bits < count)
        {
            if (_held - _at >= sizeof(ulong))
            {
                // Up to eight bytes at once; a part of one is left in the word below the count, where it will come again.
                _word |= BinaryPrimitives.ReadUInt64BigEndian(_buffer.AsSpan(_at)) >> _bits;
                var bytes = (WordBits - _bits) / 8;
                _at += bytes;
                _bits += 8 * bytes;
            }
            else if (_at < _held)
            {
                _word |= (ulong)_buffer[_at++] << (WordBits - 8 - _bits);
                _bits += 8;
            }
            else if (!FillBuffer())
            {
                throw new FlacDamageException("the file ends in the middle of it", isCut: true);
            }
        }
    }

    // Keeps what has not been read to its end, since the checksum is taken of whole bytes.
    private bool FillBuffer()
    {
        var from = Unread;
        _crc = FlacCrc.Add16(_crc, _buffer.AsSpan(_markedAt, from - _markedAt));
        _markedAt = 0;
        _buffer.AsSpan(from, _held - from).CopyTo(_buffer);
        (_at, _held) = (_at - from, _held - from);
        var count = RandomAccess.Read(handle, _buffer.AsSpan(_held), _heldEnd);
        _held += count;
        _heldEnd += count;
        return count > 0;
    }
}
