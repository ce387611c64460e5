using System.Buffers.Binary;

namespace DrumPrint.Chains.Midi;

/// <summary>Tempi, metres and markers of a Standard MIDI File (RP-001, 1.0), of all its tracks together.</summary>
/// <remarks>Strict about lengths, for such files come by mail; what is no matter of time is passed over.</remarks>
internal sealed class MidiFile
{
    private const int HeaderBytes = 14;
    private const int ChunkHeaderBytes = 8;
    private const int MostLengthBytes = 4;
    private const byte Meta = 0xFF;
    private const byte Exclusive = 0xF0;
    private const byte MoreExclusive = 0xF7;
    private const byte MarkerText = 0x06;
    private const byte EndOfTrack = 0x2F;
    private const byte SetTempo = 0x51;
    private const byte TimeSignature = 0x58;

    private readonly byte[] _bytes;
    private readonly List<MidiEvent> _events = [];
    private int _at;
    private int _end;

    private MidiFile(byte[] bytes) => _bytes = bytes;

    /// <summary>Ticks of a quarter note.</summary>
    public int TicksPerQuarter { get; private set; }

    /// <summary>The tick at which the longest track ends.</summary>
    public long EndTick { get; private set; }

    /// <summary>By tick; at one tick in the order of the file.</summary>
    public IReadOnlyList<MidiEvent> Events { get; private set; } = [];

    public static bool Recognises(ReadOnlySpan<byte> bytes) => bytes.StartsWith("MThd"u8);

    /// <exception cref="MidiFormatException">It is broken, or counts time in frames of film.</exception>
    public static MidiFile Read(byte[] bytes)
    {
        var file = new MidiFile(bytes);
        file.ReadChunks();
        file.Events = [.. file._events.OrderBy(e => e.Tick)];
        return file;
    }

    private void ReadChunks()
    {
        var length = _bytes.Length < HeaderBytes ? 0 : BinaryPrimitives.ReadUInt32BigEndian(_bytes.AsSpan(4));
        if (length < HeaderBytes - ChunkHeaderBytes || length > _bytes.Length - ChunkHeaderBytes)
        {
            throw new MidiFormatException("this MIDI file breaks off inside its header.");
        }

        var (format, division) = (BinaryPrimitives.ReadUInt16BigEndian(_bytes.AsSpan(8)), BinaryPrimitives.ReadInt16BigEndian(_bytes.AsSpan(12)));
        if (format > 1)
        {
            throw new MidiFormatException($"this MIDI file is of type {format}, several songs in one; a tempo map is read from types 0 and 1.");
        }

        if (division <= 0)
        {
            throw new MidiFormatException("this MIDI file counts time in frames of film and not in bars. Export it in ticks of a quarter note.");
        }

        TicksPerQuarter = division;
        for (var at = ChunkHeaderBytes + (long)length; at + ChunkHeaderBytes <= _bytes.Length;)
        {
            var bytes = BinaryPrimitives.ReadUInt32BigEndian(_bytes.AsSpan((int)at + 4));
            var contents = at + ChunkHeaderBytes;
            if (contents + bytes > _bytes.Length)
            {
                throw new MidiFormatException(FormattableString.Invariant($"this MIDI file is cut short: a part of it is said to have {bytes} bytes, and {_bytes.Length - contents} are there."));
            }

            if (_bytes.AsSpan((int)at).StartsWith("MTrk"u8))
            {
                ReadTrack((int)contents, (int)(contents + bytes));
            }

            at = contents + bytes;
        }
    }

    private void ReadTrack(int from, int end)
    {
        (_at, _end) = (from, end);
        var (tick, running) = (0L, (byte)0);
        while (_at < _end)
        {
            tick += Quantity();
            EndTick = Math.Max(EndTick, tick);
            var status = Byte();
            if (status < 0x80)
            {
                // The status of the event before holds on; this is its first byte already.
                (status, _at) = (running, _at - 1);
            }

            switch (status)
            {
                case Meta:
                    if (ReadMeta(tick))
                    {
                        return;
                    }

                    running = 0;
                    break;
                case Exclusive or MoreExclusive:
                    Take(Quantity());
                    running = 0;
                    break;
                case >= 0x80 and < 0xF0:
                    running = status;
                    Take((status & 0xE0) == 0xC0 ? 1 : 2);
                    break;
                default:
                    throw Broken();
            }
        }
    }

    // True at the end of the track.
    private bool ReadMeta(long tick)
    {
        var kind = Byte();
        var data = Take(Quantity());
        switch (kind)
        {
            case SetTempo when data.Length == 3:
                _events.Add(new MidiEvent(tick, MidiEventKind.Tempo, data));
                break;
            case TimeSignature when data.Length >= 2:
                _events.Add(new MidiEvent(tick, MidiEventKind.Metre, data));
                break;
            case SetTempo or TimeSignature:
                throw Broken();
            case MarkerText:
                _events.Add(new MidiEvent(tick, MidiEventKind.Marker, data));
                break;
        }

        return kind == EndOfTrack;
    }

    private byte Byte() => _at < _end ? _bytes[_at++] : throw Broken();

    private ReadOnlyMemory<byte> Take(long count)
    {
        if (count > _end - _at)
        {
            throw Broken();
        }

        _at += (int)count;
        return _bytes.AsMemory(_at - (int)count, (int)count);
    }

    // Seven bits in each byte, the highest first.
    private long Quantity()
    {
        var value = 0L;
        for (var n = 0; n < MostLengthBytes; n++)
        {
            var next = Byte();
            value = (value << 7) | (uint)(next & 0x7F);
            if (next < 0x80)
            {
                return value;
            }
        }

        throw Broken();
    }

    private MidiFormatException Broken() => new(FormattableString.Invariant($"this MIDI file is broken: at byte {_at} is no event that the format has."));
}
