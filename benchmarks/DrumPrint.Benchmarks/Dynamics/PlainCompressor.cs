namespace DrumPrint.Benchmarks.Dynamics;

/// <summary>A fully linked compressor as a textbook writes it: frame by frame, with the runtime's own logarithm and power.
/// The same curve, detector and key filter as the project's with its defaults; the yardstick for its speed.</summary>
internal sealed class PlainCompressor(bool isFeedback = false, bool isRms = false, double? keyHighPassHz = null)
{
    private const double Rate = 48000;
    private const double ThresholdDb = -20;
    private const double Ratio = 4;
    private const double KneeDb = 6;

    private readonly PlainHighPass[]? _filters = keyHighPassHz is { } hz ? [new(hz, Rate), new(hz, Rate)] : null;
    private readonly double _attack = Math.Exp(-1 / (0.010 * Rate));
    private readonly double _release = Math.Exp(-1 / (0.120 * Rate));
    private readonly double _average = Math.Exp(-1 / (0.010 * Rate));
    private readonly double[] _power = new double[2];
    private double _held;
    private double _reduction;
    private double _lastLevel;

    public void Process(double[][] channels)
    {
        for (var n = 0; n < channels[0].Length; n++)
        {
            var level = 0.0;
            for (var c = 0; c < channels.Length; c++)
            {
                level = Math.Max(level, Level(channels[c][n], c));
            }

            var db = 20 * Math.Log10(Math.Max(isFeedback ? _lastLevel : level, 1e-30));
            var asked = !isFeedback ? Curve(db) : db > ThresholdDb - (KneeDb / 2) ? Curve(db + _reduction) : 0;
            _held = Math.Max(asked, (_release * _held) + ((1 - _release) * asked));
            _reduction = (_attack * _reduction) + ((1 - _attack) * _held);
            var gain = Math.Pow(10, -_reduction / 20);
            foreach (var samples in channels)
            {
                samples[n] *= gain;
            }

            _lastLevel = level * gain;
        }
    }

    private static double Curve(double level)
    {
        const double Slope = 1 - (1 / Ratio);
        var over = level - ThresholdDb;
        if (2 * over < -KneeDb)
        {
            return 0;
        }

        return 2 * over <= KneeDb ? Slope * (over + (KneeDb / 2)) * (over + (KneeDb / 2)) / (2 * KneeDb) : Slope * over;
    }

    private double Level(double sample, int channel)
    {
        var heard = _filters is null ? sample : _filters[channel].Next(sample);
        if (!isRms)
        {
            return Math.Abs(heard);
        }

        _power[channel] = (_average * _power[channel]) + ((1 - _average) * heard * heard);
        return Math.Sqrt(_power[channel]);
    }
}
