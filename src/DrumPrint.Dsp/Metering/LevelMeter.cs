using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Metering;

/// <summary>Sample peak, mean level, crest factor, direct-current offset and correlation of a mono or stereo signal.</summary>
/// <remarks>Levels are in dBFS with a full-scale square wave at 0 (a full-scale sine reads −3.01 RMS). Sums run frame by
/// frame, so where blocks are cut changes nothing.</remarks>
public sealed class LevelMeter
{
    private readonly double[] _peaks;
    private readonly double[] _sums;
    private readonly double[] _powers;
    private double _product;
    private long _frames;

    public LevelMeter(AudioFormat format)
    {
        _peaks = new double[format.Channels];
        _sums = new double[format.Channels];
        _powers = new double[format.Channels];
    }

    /// <summary>Frames heard.</summary>
    public long Frames => _frames;

    /// <summary>Highest sample over all channels; −∞ for silence.</summary>
    public double PeakDb => Decibels.FromGain(_peaks.Max());

    /// <summary>Mean level over all channels and the whole time; −∞ for silence.</summary>
    public double RmsDb => Decibels.FromGain(Math.Sqrt(Power));

    /// <summary>Peak over mean level in dB: how spiky the sound is; 0 for silence.</summary>
    public double CrestDb => Power > 0 ? PeakDb - RmsDb : 0;

    /// <summary>
    /// How alike left and right are: 1 the same, 0 unrelated, −1 opposite. It is the sum of products over the root of
    /// the product of the powers. 1 for mono, and for two silent channels; 0 when one of them is silent.
    /// </summary>
    public double Correlation
    {
        get
        {
            if (_powers.Length < 2 || (_powers[0] == 0 && _powers[1] == 0))
            {
                return 1;
            }

            var scale = Math.Sqrt(_powers[0]) * Math.Sqrt(_powers[1]);
            return scale == 0 ? 0 : Math.Clamp(_product / scale, -1, 1);
        }
    }

    private double Power
    {
        get
        {
            var sum = 0.0;
            foreach (var power in _powers)
            {
                sum += power;
            }

            return _frames == 0 ? 0 : sum / _frames / _powers.Length;
        }
    }

    /// <summary>Highest sample of one channel, linear.</summary>
    public double PeakOf(int channel) => _peaks[channel];

    /// <summary>Mean of the samples of one channel: its offset from zero, linear.</summary>
    public double OffsetOf(int channel) => _frames == 0 ? 0 : _sums[channel] / _frames;

    /// <summary>Listens to the next block.</summary>
    public void Add(AudioBlock block)
    {
        for (var channel = 0; channel < _peaks.Length; channel++)
        {
            var (peak, sum, power) = (_peaks[channel], _sums[channel], _powers[channel]);
            foreach (var sample in block[channel])
            {
                peak = Math.Max(peak, Math.Abs(sample));
                sum += sample;
                power += sample * sample;
            }

            (_peaks[channel], _sums[channel], _powers[channel]) = (peak, sum, power);
        }

        if (_peaks.Length == 2)
        {
            var left = block[0];
            var right = block[1];
            for (var frame = 0; frame < left.Length; frame++)
            {
                _product += left[frame] * right[frame];
            }
        }

        _frames += block.Frames;
    }
}
