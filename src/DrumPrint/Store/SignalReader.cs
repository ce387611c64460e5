using System.Buffers.Binary;
using System.Runtime.InteropServices;
using System.Text;
using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Files;
using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Store;

/// <summary>Reads a kept signal, holding every piece against its sum before it is used.</summary>
internal sealed class SignalReader : IDisposable
{
    private readonly SafeFileHandle _handle;
    private readonly string _path;
    private readonly PieceSums _sums;
    private readonly byte[] _bytes;
    private long _offset;
    private long _frame;
    private int _held;
    private int _given;

    private SignalReader(SafeFileHandle handle, string path, PieceSums sums, SignalHeader header, IReadOnlyDictionary<string, IReadOnlyList<GainTrace>> traces, long start)
    {
        _handle = handle;
        _path = path;
        _sums = sums;
        Header = header;
        Traces = traces;
        _offset = start;
        _bytes = GC.AllocateUninitializedArray<byte>(SignalLayout.PieceBytes(header.Channels) + SignalLayout.SumBytes);
    }

    public SignalHeader Header { get; }

    /// <summary>What the processors of its bus and of those that feed it do to the gain, by the key of the bus's sound.</summary>
    public IReadOnlyDictionary<string, IReadOnlyList<GainTrace>> Traces { get; }

    /// <summary>Opens a file and checks everything but the samples.</summary>
    /// <param name="path">The file.</param>
    /// <param name="sums">The store's.</param>
    /// <exception cref="DamagedSignalException">It is not whole.</exception>
    /// <exception cref="IOException">It cannot be opened.</exception>
    public static SignalReader Open(string path, StoreSums sums)
    {
        var handle = RegularFile.Open(path, FileShare.Read | FileShare.Delete);
        try
        {
            return Open(handle, path, sums);
        }
        catch (Exception e)
        {
            handle.Dispose();
            if (FileTrouble.IsFileTrouble(e) || e is AudioFileException or JsonException or InvalidOperationException or KeyNotFoundException or FormatException or OverflowException)
            {
                throw new DamagedSignalException(path, "", e);
            }

            throw;
        }
    }

    /// <summary>Fills a block with the next frames, silence after the end.</summary>
    /// <exception cref="DamagedSignalException">The file is not what was written.</exception>
    public void Read(AudioBlock block)
    {
        for (var done = 0; done < block.Frames;)
        {
            if (_given == _held && !NextPiece())
            {
                var rest = block.Slice(done, block.Frames - done);
                for (var channel = 0; channel < rest.Channels; channel++)
                {
                    rest[channel].Clear();
                }

                return;
            }

            var part = Math.Min(_held - _given, block.Frames - done);
            for (var channel = 0; channel < Header.Channels; channel++)
            {
                ToSamples(_bytes.AsSpan(((channel * _held) + _given) * sizeof(double)), block[channel].Slice(done, part));
            }

            _given += part;
            done += part;
        }
    }

    /// <summary>Reads to the end, so that every sum is checked.</summary>
    /// <exception cref="DamagedSignalException">The file is not what was written.</exception>
    public void CheckAll()
    {
        while (NextPiece())
        {
        }
    }

    public void Dispose()
    {
        _handle.Dispose();
        _sums.Dispose();
    }

    private static SignalReader Open(SafeFileHandle handle, string path, StoreSums store)
    {
        var start = Bytes(handle, path, 0, SignalLayout.Mark.Length + SignalLayout.SaltBytes + sizeof(int));
        var headerBytes = BinaryPrimitives.ReadInt32LittleEndian(start.AsSpan(SignalLayout.Mark.Length + SignalLayout.SaltBytes));
        if (!start.AsSpan().StartsWith(SignalLayout.Mark) || headerBytes is < 0 or > SignalLayout.MostHeaderBytes)
        {
            throw new FormatException("This is no kept signal.");
        }

        var sums = store.ForFile(start.AsSpan(SignalLayout.Mark.Length, SignalLayout.SaltBytes));
        try
        {
            var header = SignalHeader.Parse(Checked(handle, path, sums, start.Length, headerBytes, SignalLayout.HeaderNumber));
            var body = SignalLayout.Start(headerBytes);
            var traces = body + SignalLayout.BodyBytes(header.Channels, header.Frames);
            var tracesBytes = BinaryPrimitives.ReadInt32LittleEndian(Bytes(handle, path, traces, sizeof(int)));
            if (tracesBytes < 0 || RandomAccess.GetLength(handle) != traces + sizeof(int) + tracesBytes + SignalLayout.SumBytes)
            {
                throw new FormatException("It is shorter or longer than it was.");
            }

            return new SignalReader(handle, path, sums, header, ParseTraces(Checked(handle, path, sums, traces + sizeof(int), tracesBytes, SignalLayout.TracesNumber)), body);
        }
        catch
        {
            sums.Dispose();
            throw;
        }
    }

    private static byte[] Bytes(SafeFileHandle handle, string path, long offset, int count)
    {
        var bytes = new byte[count];
        FileView.ReadExactly(handle, bytes, offset, path);
        return bytes;
    }

    private static byte[] Checked(SafeFileHandle handle, string path, PieceSums sums, long offset, int count, long number)
    {
        var bytes = Bytes(handle, path, offset, count + SignalLayout.SumBytes);
        return sums.IsRight(number, bytes) ? bytes[..count] : throw new FormatException("Its sum is another.");
    }

    private static Dictionary<string, IReadOnlyList<GainTrace>> ParseTraces(byte[] data)
    {
        using var bytes = new BinaryReader(new MemoryStream(data), Encoding.UTF8);
        var traces = new List<(string Bus, GainTrace Trace)>();
        for (var left = bytes.ReadInt32(); left > 0; left--)
        {
            var bus = bytes.ReadString();
            var processor = bytes.ReadString();
            var latency = bytes.ReadInt64();
            var window = bytes.ReadInt32();
            var count = bytes.ReadInt32();
            if (window < 1 || count < 0 || count > (data.Length - bytes.BaseStream.Position) / sizeof(float))
            {
                throw new FormatException("No trace is like that.");
            }

            var gains = new float[count];
            for (var n = 0; n < gains.Length; n++)
            {
                gains[n] = bytes.ReadSingle();
            }

            traces.Add((bus, new GainTrace(processor, latency, window, gains)));
        }

        return traces.GroupBy(t => t.Bus, t => t.Trace, StringComparer.Ordinal).ToDictionary(g => g.Key, IReadOnlyList<GainTrace> (g) => [.. g], StringComparer.Ordinal);
    }

    // False at the end.
    private bool NextPiece()
    {
        _given = 0;
        _held = (int)Math.Min(SignalLayout.PieceFrames, Header.Frames - _frame);
        if (_held == 0)
        {
            return false;
        }

        var piece = _bytes.AsSpan(0, (Header.Channels * _held * sizeof(double)) + SignalLayout.SumBytes);
        try
        {
            FileView.ReadExactly(_handle, piece, _offset, _path);
        }
        catch (AudioFileException e)
        {
            throw new DamagedSignalException(_path, Header.Name, e);
        }

        if (!_sums.IsRight(_frame / SignalLayout.PieceFrames, piece))
        {
            throw new DamagedSignalException(_path, Header.Name);
        }

        _offset += piece.Length;
        _frame += _held;
        return true;
    }

    private static void ToSamples(ReadOnlySpan<byte> bytes, Span<double> samples)
    {
        if (BitConverter.IsLittleEndian)
        {
            bytes[..(samples.Length * sizeof(double))].CopyTo(MemoryMarshal.AsBytes(samples));
            return;
        }

        for (var n = 0; n < samples.Length; n++)
        {
            samples[n] = BinaryPrimitives.ReadDoubleLittleEndian(bytes[(n * sizeof(double))..]);
        }
    }
}
