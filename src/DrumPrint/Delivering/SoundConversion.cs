using System.Globalization;
using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Resampling;
using DrumPrint.Dsp.WordLength;
using DrumPrint.Files;

namespace DrumPrint.Delivering;

/// <summary>Writes a sound in another form: rate, word length, stereo as two mono files, a gain.</summary>
/// <remarks>Same input, same bytes. Noise for rounding is addressed by the name of the sound. What only moves channels or goes to a longer word is exact.</remarks>
internal sealed class SoundConversion : IDisposable
{
    private const int BlockFrames = 4096;

    private readonly AudioReader _reader;
    private readonly SampleEncoding _encoding;
    private readonly double _gain;
    private readonly bool _isOfOtherRate;
    private readonly RateConverter[] _rates;
    private readonly double[][] _input;
    private readonly double[][] _made;
    private readonly WaveWriter[] _writers;
    private readonly Quantizer?[] _rounding;
    private double _peak;

    /// <param name="from">The sound.</param>
    /// <param name="to">Files it becomes: one, or one for each channel.</param>
    /// <param name="form">What it becomes.</param>
    /// <param name="isDithered">Whether noise is added before rounding; null for at 16 bits only.</param>
    /// <param name="name">What the noise is addressed by.</param>
    /// <param name="description">What stands in the header.</param>
    /// <param name="gain">Linear gain.</param>
    /// <param name="steps">Writes it.</param>
    public SoundConversion(string from, IReadOnlyList<string> to, DeliveredForm form, bool? isDithered, string name, string description, double gain, FileSteps steps)
    {
        _reader = AudioReader.Open(from, AudioHashes.None);
        var info = _reader.Info;
        var channels = info.Channels / to.Count;
        (_encoding, _gain, _isOfOtherRate) = (form.Encoding, gain, info.SampleRate != form.RateHz);
        _rates = [.. Enumerable.Range(0, info.Channels).Select(_ => new RateConverter(info.SampleRate, form.RateHz))];
        var room = Math.Max(_rates[0].RoomFor(BlockFrames), _rates[0].RoomToFinish);
        _input = [.. _rates.Select(_ => new double[BlockFrames])];
        _made = [.. _rates.Select(_ => new double[room])];
        var format = new AudioFormat(form.RateHz, channels);
        var header = new BroadcastExtension { Description = description, Originator = "DrumPrint", CodingHistory = CodingHistory.PcmRow(format, form.Encoding.Bits(), $"DrumPrint {EngineVersion.Text}") };
        var isRounded = gain != 1 || _isOfOtherRate || info.Encoding.IsFloat() || form.Encoding.Bits() < info.Encoding.Bits();
        var dither = isRounded && (isDithered ?? form.Encoding == SampleEncoding.Pcm16) ? Dither.Tpdf : Dither.None;
        _rounding = [.. to.Select((_, i) => form.Encoding.IsFloat() ? null : new Quantizer(form.Encoding.Bits(), dither, CounterNoise.FromName(string.Create(CultureInfo.InvariantCulture, $"{name}/{i}")), channels))];
        _writers = new WaveWriter[to.Count];
        var frames = RateConverter.OutputFrames(info.Frames, info.SampleRate, form.RateHz);
        for (var i = 0; i < to.Count; i++)
        {
            _writers[i] = WaveWriter.Create(steps, to[i], format, form.Encoding, header, frames);
        }
    }

    /// <summary>Writes it; gives the largest sample before rounding.</summary>
    /// <exception cref="AudioFileException">A file cannot be read or written.</exception>
    public double Run(CancellationToken cancel)
    {
        for (int frames; (frames = _reader.Read(new AudioBlock(_input, 0, BlockFrames))) > 0;)
        {
            cancel.ThrowIfCancellationRequested();
            var made = 0;
            for (var c = 0; c < _input.Length; c++)
            {
                made = _isOfOtherRate ? _rates[c].Process(_input[c].AsSpan(0, frames), _made[c]) : Copy(_input[c].AsSpan(0, frames), _made[c]);
            }

            Write(made);
        }

        if (_isOfOtherRate)
        {
            Write(Enumerable.Range(0, _made.Length).Select(c => _rates[c].Finish(_made[c])).Last());
        }

        foreach (var writer in _writers)
        {
            writer.Finish(writer.FramesWritten);
            writer.Publish();
        }

        return _peak;
    }

    public void Dispose()
    {
        _reader.Dispose();
        foreach (var writer in _writers)
        {
            writer?.Dispose();
        }
    }

    private static int Copy(ReadOnlySpan<double> source, Span<double> target)
    {
        source.CopyTo(target);
        return source.Length;
    }

    private void Write(int frames)
    {
        foreach (var channel in _made)
        {
            for (var n = 0; n < frames; n++)
            {
                channel[n] *= _gain;
                _peak = Math.Max(_peak, Math.Abs(channel[n]));
            }
        }

        var width = _made.Length / _writers.Length;
        for (var i = 0; i < _writers.Length; i++)
        {
            var block = new AudioBlock(_made.AsSpan(i * width, width), 0, frames);
            if (_rounding[i] is { } rounding)
            {
                rounding.Process(block);
            }
            else if (_encoding == SampleEncoding.Float32)
            {
                SingleRounding.Process(block, block);
            }

            _writers[i].Write(block);
        }
    }
}
