namespace DrumPrint.Benchmarks.Dynamics;

/// <summary>A feed-forward or feedback compressor as a textbook writes it: frame by frame, with the runtime's own
/// logarithm and power. The same curve, detector and link as the project's; the yardstick for its speed.</summary>
internal sealed class PlainCompressor(double thresholdDb, double ratio, double kneeDb, double attackMs, double releaseMs, bool isFeedback, bool isRms, int sampleRate)
{
    private readonly double _attack = Math.Exp(-1 / (attackMs * sampleRate / 1000));
    private readonly double _release = Math.Exp(-1 / (releaseMs * sampleRate / 1000));
    private readonly double _average = Math.Exp(-1 / (0.01 * sampleRate));
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
            var asked = isFeedback ? (db > thresholdDb - (kneeDb / 2) ? Curve(db + _reduction) : 0) : Curve(db);
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

    private double Level(double sample, int channel)
    {
        if (!isRms)
        {
            return Math.Abs(sample);
        }

        _power[channel] = (_average * _power[channel]) + ((1 - _average) * sample * sample);
        return Math.Sqrt(_power[channel]);
    }

    private double Curve(double level)
    {
        var over = level - thresholdDb;
        var slope = 1 - (1 / ratio);
        if (2 * over < -kneeDb)
        {
            return 0;
        }

        return 2 * over <= kneeDb ? slope * (over + (kneeDb / 2)) * (over + (kneeDb / 2)) / (2 * kneeDb) : slope * over;
    }
}
