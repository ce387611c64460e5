using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Dsp.WordLength;
using DrumPrint.Files;

namespace DrumPrint.Demo.Faults;

/// <summary>Changes the samples of a block whose first frame is given.</summary>
internal delegate void Spoil(double[][] block, long firstFrame);

/// <summary>Writes a sound file again with something done to it, as a program does that knows nothing of sessions.</summary>
/// <param name="steps">Writes it.</param>
/// <param name="cancel">Stops the work.</param>
internal sealed class SpoiledFile(FileSteps steps, CancellationToken cancel)
{
    public const int BlockFrames = 1 << 14;
    private const int Bits = 24;

    /// <summary>Puts a changed file in the place of one.</summary>
    /// <param name="path">The file.</param>
    /// <param name="spoil">What is done to its samples; called with blocks of one length, the last filled up with silence.</param>
    /// <param name="lateFrames">Frames of silence to begin with.</param>
    /// <param name="frames">Length to keep; null for the file's own.</param>
    /// <param name="channels">Channels of the new file, the first one repeated; null for the file's own.</param>
    public void Write(string path, Spoil? spoil = null, long lateFrames = 0, long? frames = null, int? channels = null)
    {
        WaveWriter writer;
        using (var reader = AudioReader.Open(path, AudioHashes.None))
        {
            var info = reader.Info;
            writer = Create(path, new AudioFormat(info.SampleRate, channels ?? info.Channels), info.Broadcast, frames ?? info.Frames);
            try
            {
                Copy(reader, writer, spoil, lateFrames, frames ?? info.Frames);
            }
            catch
            {
                writer.Dispose();
                throw;
            }
        }

        using (writer)
        {
            writer.Publish();
        }
    }

    /// <summary>Puts a file at another rate in the place of one.</summary>
    public void Convert(string path, int rateHz)
    {
        double[] samples;
        BroadcastExtension? broadcast;
        using (var reader = AudioReader.Open(path, AudioHashes.None))
        {
            var own = new double[reader.Info.Frames];
            reader.Read(new AudioBlock([own], 0, own.Length));
            samples = Dsp.Resampling.RateConverter.Convert(own, reader.Info.SampleRate, rateHz);
            broadcast = reader.Info.Broadcast is { } b ? b with { TimeReference = b.TimeReference * rateHz / reader.Info.SampleRate } : null;
        }

        using var writer = Create(path, new AudioFormat(rateHz, 1), broadcast, samples.Length);
        new Quantizer(Bits, Dither.None, default, 1).Process(new AudioBlock([samples], 0, samples.Length));
        writer.Write(new AudioBlock([samples], 0, samples.Length));
        writer.Finish(samples.Length);
        writer.Publish();
    }

    private WaveWriter Create(string path, AudioFormat format, BroadcastExtension? broadcast, long frames)
    {
        var kept = broadcast is null ? null : new BroadcastExtension { Description = broadcast.Description, TimeReference = broadcast.TimeReference };
        return WaveWriter.Create(steps, path, format, SampleEncoding.Pcm24, kept, frames);
    }

    private void Copy(AudioReader reader, WaveWriter writer, Spoil? spoil, long lateFrames, long frames)
    {
        var (into, from) = (writer.Format.Channels, reader.Info.Channels);
        var channels = Enumerable.Range(0, Math.Max(into, from)).Select(_ => new double[BlockFrames]).ToArray();
        var silence = Enumerable.Range(0, into).Select(_ => new double[(int)Math.Max(1, lateFrames)]).ToArray();
        var quantizer = new Quantizer(Bits, Dither.None, default, into);
        writer.Write(new AudioBlock(silence, 0, (int)lateFrames));
        for (var frame = 0L; frame + lateFrames < frames; frame += BlockFrames)
        {
            cancel.ThrowIfCancellationRequested();
            foreach (var channel in channels)
            {
                channel.AsSpan().Clear();
            }

            reader.Read(new AudioBlock(channels.AsSpan(0, from), 0, BlockFrames));
            for (var c = from; c < into; c++)
            {
                channels[0].CopyTo(channels[c], 0);
            }

            spoil?.Invoke(channels, frame);
            var block = new AudioBlock(channels.AsSpan(0, into), 0, (int)Math.Min(BlockFrames, frames - frame - lateFrames));
            quantizer.Process(block);
            writer.Write(block);
        }

        writer.Finish(frames);
    }
}
