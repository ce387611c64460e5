using Microsoft.Win32.SafeHandles;

namespace DrumPrint.Audio;

/// <summary>Reads stretches of a file in any order: a few milliseconds around each hit, without the rest.</summary>
internal sealed class SampleWindows : ISampleWindows
{
    private readonly SafeFileHandle _handle;
    private readonly AudioFileLayout _layout;
    private readonly SampleBytes _file;
    private readonly int _frameBytes;
    private readonly Lock _gate = new();
    private byte[] _bytes = [];
    private double[] _samples = [];

    private SampleWindows(SafeFileHandle handle, AudioFileLayout layout)
    {
        (_handle, _layout) = (handle, layout);
        _file = layout.Open(handle, proves: false);
        _frameBytes = layout.FrameBytes;
    }

    public AudioFileInfo Info => _layout.Info;

    /// <summary>Opens a file.</summary>
    /// <exception cref="AudioFileException">It is missing, unreadable or no audio of a supported kind.</exception>
    public static SampleWindows Open(string path) => FileAudioReader.Open(path, (handle, layout) => new SampleWindows(handle, layout));

    /// <summary>Fills a span with one channel, from any frame on; what lies outside the file is silence.</summary>
    /// <param name="channel">From 0; −1 for the mean of all channels.</param>
    /// <param name="firstFrame">Frame to begin with; may be negative.</param>
    /// <param name="into">Where the samples go.</param>
    public void Read(int channel, long firstFrame, Span<double> into)
    {
        into.Clear();
        var from = Math.Max(0, firstFrame);
        var frames = (int)Math.Max(0, Math.Min(Info.Frames, firstFrame + into.Length) - from);
        if (frames == 0)
        {
            return;
        }

        lock (_gate)
        {
            Fetch(from, frames);
            var target = into.Slice((int)(from - firstFrame), frames);
            var (first, last) = channel < 0 ? (0, Info.Channels - 1) : (channel, channel);
            for (var c = first; c <= last; c++)
            {
                for (var n = 0; n < frames; n++)
                {
                    target[n] += _samples[(n * Info.Channels) + c] / (last - first + 1);
                }
            }
        }
    }

    public void Dispose()
    {
        _file.Dispose();
        _handle.Dispose();
    }

    private void Fetch(long from, int frames)
    {
        var bytes = frames * _frameBytes;
        if (_bytes.Length < bytes)
        {
            (_bytes, _samples) = (new byte[bytes], new double[frames * Info.Channels]);
        }

        var part = _bytes.AsSpan(0, bytes);
        _file.Fetch(from, part);
        _file.Arrange(part);
        SampleDecoder.Decode(part, Info.Encoding, _samples.AsSpan(0, frames * Info.Channels));
    }
}
