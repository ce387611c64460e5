using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Session;

namespace DrumPrint.Live;

/// <summary>A recording that begins at any frame.</summary>
/// <param name="channels">Channels that are read.</param>
/// <param name="frames">Length at the session's rate.</param>
/// <param name="path">The file, for messages.</param>
/// <param name="read">Reads a channel from a frame on; silence after the end.</param>
internal sealed class AnywhereSource(int channels, long frames, string path, ChannelReading read) : ITrackSource
{
    // A few blocks at a time, so that the file is not asked for each.
    private const int AtOnce = 8192;

    private readonly double[][] _held = [.. Enumerable.Range(0, channels).Select(_ => new double[AtOnce])];
    private long _frame;
    private long _heldFrom = -AtOnce;

    public int Channels => channels;

    public long Frames => frames;

    public string AudioSha256 => throw new NotSupportedException("No hash is taken of a recording that is not read from start to end.");

    public string? FileSha256 => null;

    public UInt128? Likeness => null;

    public void Start(long frame) => _frame = frame;

    public void Read(AudioBlock block)
    {
        for (var done = 0; done < block.Frames;)
        {
            if (_frame >= _heldFrom + AtOnce || _frame < _heldFrom)
            {
                Hold();
            }

            var at = (int)(_frame - _heldFrom);
            var part = Math.Min(AtOnce - at, block.Frames - done);
            for (var channel = 0; channel < channels; channel++)
            {
                _held[channel].AsSpan(at, part).CopyTo(block[channel][done..]);
            }

            done += part;
            _frame += part;
        }
    }

    public void SkipToEnd() => _frame = frames;

    public void Dispose()
    {
    }

    private void Hold()
    {
        _heldFrom = _frame;
        for (var channel = 0; channel < channels; channel++)
        {
            var samples = _held[channel].AsSpan();
            if (_frame >= frames)
            {
                samples.Clear();
                continue;
            }

            read(channel, _frame, samples);
            if (NotFinite.IndexIn(samples) >= 0)
            {
                throw new AudioFileException(path, "a sample is not a number or infinite. The program that wrote the file went wrong there: export the track again.");
            }
        }
    }
}

/// <summary>Reads a channel of a recording from any frame on.</summary>
internal delegate void ChannelReading(int channel, long frame, Span<double> into);
