using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Session;

/// <summary>Reads a raw track's file. It stops at the first sample that is not a number or infinite, for a filter would never get
/// rid of it.</summary>
/// <param name="reader">The open file.</param>
/// <param name="track">The chain's name for it.</param>
/// <param name="channels">Channels of the file that are read, from 0.</param>
internal sealed class SoundReader(AudioReader reader, string track, IReadOnlyList<int> channels) : IDisposable
{
    private readonly int[] _channels = [.. channels];
    private readonly bool _mayBeWild = reader.Info.Encoding.IsFloat();
    private long _frames;

    public AudioReader File => reader;

    /// <summary>Number of channels that are read.</summary>
    public int Channels => _channels.Length;

    /// <summary>Fills the block from the file's next frames; silence after its end.</summary>
    /// <returns>Frames read, 0 at the end.</returns>
    /// <exception cref="AudioFileException">A sample is not a number or infinite, or the file cannot be read.</exception>
    public int Read(AudioBlock block)
    {
        var frames = reader.Read(block, _channels);
        for (var c = 0; _mayBeWild && c < _channels.Length; c++)
        {
            var n = NotFinite.IndexIn(block[c][..frames]);
            if (n >= 0)
            {
                throw Wild(_channels[c], n, double.IsNaN(block[c][n]) ? "not a number" : "infinite");
            }
        }

        _frames += frames;
        return frames;
    }

    /// <summary>Passes over frames at the start.</summary>
    public void Skip(long frames)
    {
        reader.Skip(frames);
        _frames += frames;
    }

    public void Dispose() => reader.Dispose();

    private AudioFileException Wild(int channel, int n, string what)
    {
        var frame = _frames + n;
        var seconds = (double)frame / reader.Info.SampleRate;
        return new AudioFileException(reader.Info.Path, string.Create(
            CultureInfo.InvariantCulture,
            $"track {track} has a sample that is {what}, at {seconds:0.000} s (frame {frame} of channel {channel + 1}). The program that wrote the file went wrong there: export the track again."));
    }
}
