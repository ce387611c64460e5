using System.Numerics;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Resampling;

namespace DrumPrint.Session;

/// <summary>A recording brought from its own sample rate to the session's while it is read.</summary>
internal sealed class ConvertedTrackSource : ITrackSource
{
    private const int ReadFrames = 4096;
    private readonly SoundReader _reader;
    private readonly RateConverter[] _converters;
    private readonly double[][] _input;
    private readonly double[][] _converted;
    private int _held;
    private int _given;
    private long _toSkip;
    private bool _isFinished;

    /// <param name="reader">The file.</param>
    /// <param name="sessionRateHz">The rate to bring it to.</param>
    /// <param name="skipped">Frames at that rate that are passed over at the start.</param>
    public ConvertedTrackSource(SoundReader reader, int sessionRateHz, long skipped)
    {
        _reader = reader;
        _toSkip = skipped;
        var info = reader.File.Info;
        Channels = reader.Channels;
        Frames = Math.Max(0, RateConverter.OutputFrames(info.Frames, info.SampleRate, sessionRateHz) - skipped);
        _converters = [.. Enumerable.Range(0, Channels).Select(_ => new RateConverter(info.SampleRate, sessionRateHz))];
        var room = Math.Max(_converters[0].RoomFor(ReadFrames), _converters[0].RoomToFinish);
        _input = [.. _converters.Select(_ => new double[ReadFrames])];
        _converted = [.. _converters.Select(_ => new double[room])];
    }

    public int Channels { get; }

    public long Frames { get; }

    public string AudioSha256 => _reader.File.AudioSha256;

    public string? FileSha256 => _reader.File.FileSha256;

    public UInt128? Likeness => _reader.File.Likeness;

    public void Read(AudioBlock block)
    {
        for (var done = 0; done < block.Frames;)
        {
            if (_given == _held && !Refill())
            {
                var rest = block.Slice(done, block.Frames - done);
                for (var channel = 0; channel < Channels; channel++)
                {
                    rest[channel].Clear();
                }

                return;
            }

            if (_toSkip > 0)
            {
                var over = (int)Math.Min(_toSkip, _held - _given);
                (_toSkip, _given) = (_toSkip - over, _given + over);
                continue;
            }

            var part = Math.Min(_held - _given, block.Frames - done);
            for (var channel = 0; channel < Channels; channel++)
            {
                _converted[channel].AsSpan(_given, part).CopyTo(block[channel][done..]);
            }

            _given += part;
            done += part;
        }
    }

    // After so many frames of both rates the converter stands where it began. So what is far enough before need not be read.
    public void Start(long frame)
    {
        _toSkip += frame;
        var info = _reader.File.Info;
        var common = (int)BigInteger.GreatestCommonDivisor(info.SampleRate, _converters[0].ToHz);
        var times = Math.Max(0, _toSkip - _converters[0].RoomToFinish) / (_converters[0].ToHz / common);
        _reader.Skip(times * (info.SampleRate / common));
        _toSkip -= times * (_converters[0].ToHz / common);
    }

    public void SkipToEnd() => _reader.File.Skip(_reader.File.Info.Frames);

    public void Dispose() => _reader.Dispose();

    // False once everything has been given out.
    private bool Refill()
    {
        _given = 0;
        _held = 0;
        while (_held == 0 && !_isFinished)
        {
            var frames = _reader.Read(new AudioBlock(_input, 0, ReadFrames));
            _isFinished = frames == 0;
            for (var channel = 0; channel < Channels; channel++)
            {
                _held = frames == 0
                    ? _converters[channel].Finish(_converted[channel])
                    : _converters[channel].Process(_input[channel].AsSpan(0, frames), _converted[channel]);
            }
        }

        return _held > 0;
    }
}
