using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>The squared level of what a gate listens to, between the samples too, of several channels the largest, frame by
/// frame.</summary>
internal sealed class LinkedPeak
{
    /// <summary>Longest stretch read at once.</summary>
    public const int MaxFrames = TrueLevel.MaxFrames;

    private readonly KeyInput _input;
    private readonly TrueLevel[] _readers;
    private readonly double[] _heard = new double[MaxFrames];
    private readonly double[] _powers;

    /// <param name="input">What is listened to.</param>
    /// <param name="sampleRate">Hertz.</param>
    /// <param name="isFine">Whether the level of a steady tone may not waver: for a gain that follows it.</param>
    public LinkedPeak(KeyInput input, int sampleRate, bool isFine = false)
    {
        _input = input;
        _readers = new TrueLevel[input.Channels];
        for (var channel = 0; channel < _readers.Length; channel++)
        {
            _readers[channel] = isFine ? LevelRates.Fine(sampleRate, findsPeaks: true) : LevelRates.Coarse(sampleRate);
        }

        // A frame holds its own point and those up to the next.
        _powers = new double[_readers[0].Points * MaxFrames];
        DelayFrames = _readers[0].DelayPoints / _readers[0].Points;
    }

    /// <summary>Whether another signal is listened to.</summary>
    public bool IsExternal => _input.IsExternal;

    /// <summary>Frames by which the levels lag.</summary>
    public int DelayFrames { get; }

    /// <summary>Reads a stretch.</summary>
    /// <param name="block">The signal.</param>
    /// <param name="key">The key, if there is one.</param>
    /// <param name="powers">Receives the squared levels; length a multiple of the vector's.</param>
    public void Read(AudioBlock block, AudioBlock key, Span<double> powers)
    {
        for (var channel = 0; channel < _readers.Length; channel++)
        {
            var heard = _heard.AsSpan(0, block.Frames);
            _input.Read(block, key, channel, heard);
            _readers[channel].Read(heard, _powers);
            if (channel == 0)
            {
                _powers.AsSpan(0, powers.Length).CopyTo(powers);
            }
            else
            {
                StretchMath.Raise(powers, _powers);
            }

            for (var point = 1; point < _readers[channel].Points; point++)
            {
                StretchMath.Raise(powers, _powers.AsSpan(point * MaxFrames));
            }
        }
    }
}
