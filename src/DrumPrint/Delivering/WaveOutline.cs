using DrumPrint.Audio;
using DrumPrint.Dsp;

namespace DrumPrint.Delivering;

/// <summary>A waveform as it is drawn small: lowest and highest sample of each of a few hundred stretches, both channels together.</summary>
/// <remarks>The largest sample fills the height. Pictures are not for reading levels off.</remarks>
internal sealed class WaveOutline
{
    private const int Columns = 600;
    private const int Full = 127;
    private const int BlockFrames = 1 << 13;

    private readonly double[] _low = new double[Columns];
    private readonly double[] _high = new double[Columns];

    private WaveOutline()
    {
    }

    /// <summary>Reads a file.</summary>
    /// <exception cref="AudioFileException">It cannot be read.</exception>
    public static WaveOutline Of(string path, CancellationToken cancel)
    {
        using var reader = AudioReader.Open(path, AudioHashes.None);
        var outline = new WaveOutline();
        var block = new AudioBlock([.. Enumerable.Range(0, reader.Info.Channels).Select(_ => new double[BlockFrames])], 0, BlockFrames);
        for (long frame = 0; reader.Read(block) is var frames and > 0; frame += frames)
        {
            cancel.ThrowIfCancellationRequested();
            outline.Add(block.Slice(0, frames), frame, reader.Info.Frames);
        }

        return outline;
    }

    /// <summary>Lowest and highest of each stretch in turn, −127 to 127.</summary>
    public byte[] ToBytes()
    {
        var peak = Math.Max(_high.Max(), -_low.Min());
        var scale = peak > 0 ? Full / peak : 0;
        return [.. Enumerable.Range(0, Columns).SelectMany(c => new[] { (byte)(sbyte)Math.Round(_low[c] * scale), (byte)(sbyte)Math.Round(_high[c] * scale) })];
    }

    private void Add(AudioBlock block, long first, long all)
    {
        for (var channel = 0; channel < block.Channels; channel++)
        {
            var samples = block[channel];
            for (var n = 0; n < samples.Length; n++)
            {
                var column = (int)((first + n) * Columns / all);
                _low[column] = Math.Min(_low[column], samples[n]);
                _high[column] = Math.Max(_high[column], samples[n]);
            }
        }
    }
}
