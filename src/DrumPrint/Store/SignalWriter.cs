using System.Buffers.Binary;
using System.Runtime.InteropServices;
using System.Security.Cryptography;
using System.Text;
using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Files;

namespace DrumPrint.Store;

/// <summary>Keeps one signal, under a temporary name until it is whole.</summary>
/// <remarks>A disk that fails ends the keeping and nothing else: a print never fails for want of a store.</remarks>
internal sealed class SignalWriter : IDisposable
{
    private readonly StagedFile _file;
    private readonly SignalHeader _header;
    private readonly IReadOnlyDictionary<string, IReadOnlyList<GainTrace>> _traces;
    private readonly byte[] _salt = RandomNumberGenerator.GetBytes(SignalLayout.SaltBytes);
    private readonly PieceSums _sums;
    private readonly byte[] _bytes;
    private long _frames;
    private int _held;

    private SignalWriter(StagedFile file, SignalHeader header, IReadOnlyDictionary<string, IReadOnlyList<GainTrace>> traces, StoreSums sums)
    {
        _file = file;
        _sums = sums.ForFile(_salt);
        _header = header;
        _traces = traces;
        _bytes = GC.AllocateUninitializedArray<byte>(SignalLayout.PieceBytes(header.Channels) + SignalLayout.SumBytes);
    }

    /// <summary>What went wrong; null when all is well.</summary>
    public string? Failure { get; private set; }

    /// <summary>Begins to keep a signal.</summary>
    /// <param name="path">The file it becomes.</param>
    /// <param name="header">What it is.</param>
    /// <param name="traces">What the processors of its bus and of those that feed it do to the gain, by the key of the bus's
    /// sound. They are read when the render is over.</param>
    /// <param name="sums">The store's.</param>
    /// <param name="steps">Writes it.</param>
    /// <exception cref="IOException">The file cannot be made.</exception>
    public static SignalWriter Create(string path, SignalHeader header, IReadOnlyDictionary<string, IReadOnlyList<GainTrace>> traces, StoreSums sums, FileSteps steps)
    {
        var writer = new SignalWriter(StagedFile.Create(path, steps: steps), header, traces, sums);
        try
        {
            writer.WriteHeader();
            return writer;
        }
        catch
        {
            writer.Dispose();
            throw;
        }
    }

    /// <summary>Takes the next frames.</summary>
    public void Write(AudioBlock block)
    {
        for (var done = 0; done < block.Frames && _frames + _held < _header.Frames && Failure is null;)
        {
            var piece = (int)Math.Min(SignalLayout.PieceFrames, _header.Frames - _frames);
            var part = Math.Min(block.Frames - done, piece - _held);
            for (var channel = 0; channel < _header.Channels; channel++)
            {
                ToBytes(block[channel].Slice(done, part), _bytes.AsSpan(((channel * piece) + _held) * sizeof(double)));
            }

            done += part;
            _held += part;
            if (_held == piece)
            {
                WritePiece();
            }
        }
    }

    /// <summary>Ends the file and gives it its name.</summary>
    /// <returns>Whether it is kept.</returns>
    public bool Commit()
    {
        if (Failure is not null || _frames < _header.Frames)
        {
            return false;
        }

        try
        {
            var traces = Traces();
            Put(Length(traces.Length));
            Put(traces);
            Put(SumOf(SignalLayout.TracesNumber, traces));

            // Its sums tell a damaged one, so nothing waits for the disk.
            _file.Complete(flush: false);
            _file.Commit();
            return true;
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            Failure = FileReason.Of(e);
            return false;
        }
    }

    public void Dispose()
    {
        _file.Dispose();
        _sums.Dispose();
    }

    private void WriteHeader()
    {
        var header = _header.ToBytes();
        Put(SignalLayout.Mark);
        Put(_salt);
        Put(Length(header.Length));
        Put(header);
        Put(SumOf(SignalLayout.HeaderNumber, header));
    }

    private void WritePiece()
    {
        var all = _header.Channels * _held * sizeof(double);
        _sums.Of(_frames / SignalLayout.PieceFrames, _bytes.AsSpan(0, all), _bytes.AsSpan(all, SignalLayout.SumBytes));
        try
        {
            Put(_bytes.AsSpan(0, all + SignalLayout.SumBytes));
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            Failure = FileReason.Of(e);
        }

        _frames += _held;
        _held = 0;
    }

    private byte[] Traces()
    {
        using var stream = new MemoryStream();
        using var bytes = new BinaryWriter(stream, Encoding.UTF8);
        bytes.Write(_traces.Sum(t => t.Value.Count));
        foreach (var (bus, trace) in _traces.OrderBy(t => t.Key, StringComparer.Ordinal).SelectMany(t => t.Value.Select(v => (t.Key, v))))
        {
            var gains = trace.Until(_header.Frames - _header.Latency);
            bytes.Write(bus);
            bytes.Write(trace.Processor);
            bytes.Write(trace.Latency);
            bytes.Write(trace.WindowFrames);
            bytes.Write(gains.Length);
            foreach (var gain in gains)
            {
                bytes.Write(gain);
            }
        }

        bytes.Flush();
        return stream.ToArray();
    }

    private void Put(ReadOnlySpan<byte> bytes) => _file.Append(bytes);

    private static byte[] Length(int length)
    {
        var bytes = new byte[sizeof(int)];
        BinaryPrimitives.WriteInt32LittleEndian(bytes, length);
        return bytes;
    }

    private byte[] SumOf(long number, ReadOnlySpan<byte> bytes)
    {
        var sum = new byte[SignalLayout.SumBytes];
        _sums.Of(number, bytes, sum);
        return sum;
    }

    private static void ToBytes(ReadOnlySpan<double> samples, Span<byte> bytes)
    {
        if (BitConverter.IsLittleEndian)
        {
            MemoryMarshal.AsBytes(samples).CopyTo(bytes);
            return;
        }

        for (var n = 0; n < samples.Length; n++)
        {
            BinaryPrimitives.WriteDoubleLittleEndian(bytes[(n * sizeof(double))..], samples[n]);
        }
    }
}
