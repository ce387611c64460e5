using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Measuring;

/// <summary>Measures a sound file in one pass.</summary>
public static class FileMeter
{
    // More than any recorder writes; a header may claim 65 535, and every meter takes memory for each.
    private const int MostChannels = 1024;
    private const int BlockFrames = 1 << 13;
    private const int BlockSamples = 1 << 18;

    /// <summary>Reads a file from its start to its end.</summary>
    /// <param name="path">Any file <see cref="AudioReader"/> reads.</param>
    /// <param name="progress">Told the frames read since it was last told, and how many there are.</param>
    /// <param name="cancel">Stops between blocks.</param>
    /// <exception cref="AudioFileException">The file cannot be read, has more than 1024 channels, or a sample is not a number or infinite.</exception>
    public static FileMeasurement Measure(string path, Action<int, long>? progress = null, CancellationToken cancel = default)
    {
        using var reader = AudioReader.Open(path, AudioHashes.None);
        var info = reader.Info;
        if (info.Channels > MostChannels)
        {
            throw new AudioFileException(path, FormattableString.Invariant($"has {info.Channels} channels; files of up to {MostChannels} can be measured."));
        }

        var meter = new SoundMeter(new AudioFormat(info.SampleRate, info.Channels), info.Frames, ChannelWeights.Of(info));
        var blockFrames = (int)Math.Min(Math.Clamp(BlockSamples / info.Channels, 1, BlockFrames), Math.Max(1, info.Frames));
        var channels = new double[info.Channels][];
        for (var channel = 0; channel < channels.Length; channel++)
        {
            channels[channel] = new double[blockFrames];
        }

        var whole = new AudioBlock(channels, 0, blockFrames);
        for (long frame = 0; reader.Read(whole) is var frames and > 0; frame += frames)
        {
            cancel.ThrowIfCancellationRequested();
            var block = whole.Slice(0, frames);
            ThrowIfNotFinite(path, block, frame);
            meter.Add(block);
            progress?.Invoke(frames, info.Frames);
        }

        return new FileMeasurement(info, meter.Read());
    }

    private static void ThrowIfNotFinite(string path, AudioBlock block, long start)
    {
        for (var channel = 0; channel < block.Channels; channel++)
        {
            var n = NotFinite.IndexIn(block[channel]);
            if (n >= 0)
            {
                throw new AudioFileException(path, $"frame {start + n} of channel {channel + 1} is not a number; the program that wrote the file went wrong there.");
            }
        }
    }
}
