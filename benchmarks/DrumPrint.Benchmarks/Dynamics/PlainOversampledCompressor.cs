namespace DrumPrint.Benchmarks.Dynamics;

/// <summary>The plain compressor at eight times the rate, the usual way to keep its gain from folding. It has a windowed sinc
/// up, the textbook's compressor on every sample, and the same sinc down. About 100 dB clean.</summary>
internal sealed class PlainOversampledCompressor
{
    private const int Factor = 8;
    private const int Reach = 40;
    private const double ThresholdDb = -20;
    private const double Ratio = 4;
    private const double KneeDb = 6;

    private readonly double[] _taps = MakeTaps();
    private readonly double[][] _input;
    private readonly double[][] _raised;
    private readonly double _attack = Math.Exp(-1 / (0.010 * 48000 * Factor));
    private readonly double _release = Math.Exp(-1 / (0.120 * 48000 * Factor));
    private double _held;
    private double _reduction;

    public PlainOversampledCompressor(int channels)
    {
        _input = [.. Enumerable.Range(0, channels).Select(_ => new double[2 * Reach])];
        _raised = [.. Enumerable.Range(0, channels).Select(_ => new double[2 * Reach * Factor])];
    }

    public void Process(double[][] channels)
    {
        for (var n = 0; n < channels[0].Length; n++)
        {
            for (var c = 0; c < channels.Length; c++)
            {
                Raise(c, channels[c][n]);
            }

            Compress(channels.Length);
            for (var c = 0; c < channels.Length; c++)
            {
                channels[c][n] = Lower(c);
            }
        }
    }

    private static double[] MakeTaps()
    {
        var taps = new double[2 * Reach * Factor];
        for (var i = 0; i < taps.Length; i++)
        {
            var away = (i - (taps.Length / 2) + 0.5) / Factor;
            var turn = 2 * Math.PI * (i + 0.5) / taps.Length;
            var window = 0.35875 - (0.48829 * Math.Cos(turn)) + (0.14128 * Math.Cos(2 * turn)) - (0.01168 * Math.Cos(3 * turn));
            taps[i] = 0.92 * Math.Sin(Math.PI * 0.92 * away) / (Math.PI * 0.92 * away) * window;
        }

        return taps;
    }

    private static double Curve(double level)
    {
        var above = Math.Max(0, level - ThresholdDb + (KneeDb / 2));
        var inKnee = Math.Min(above, KneeDb);
        return (1 - (1 / Ratio)) * ((inKnee * inKnee / (2 * KneeDb)) + above - inKnee);
    }

    private void Raise(int channel, double sample)
    {
        var input = _input[channel];
        input.AsSpan(1).CopyTo(input);
        input[^1] = sample;
        var raised = _raised[channel];
        raised.AsSpan(Factor).CopyTo(raised);
        for (var phase = 0; phase < Factor; phase++)
        {
            var sum = 0.0;
            for (var k = 0; k < input.Length; k++)
            {
                sum += _taps[(k * Factor) + phase] * input[input.Length - 1 - k];
            }

            raised[raised.Length - Factor + phase] = sum;
        }
    }

    private void Compress(int channels)
    {
        for (var i = _raised[0].Length - Factor; i < _raised[0].Length; i++)
        {
            var level = 1e-30;
            for (var c = 0; c < channels; c++)
            {
                level = Math.Max(level, Math.Abs(_raised[c][i]));
            }

            var asked = Curve(20 * Math.Log10(level));
            _held = Math.Max(asked, (_release * _held) + ((1 - _release) * asked));
            _reduction = (_attack * _reduction) + ((1 - _attack) * _held);
            var gain = Math.Pow(10, -_reduction / 20);
            for (var c = 0; c < channels; c++)
            {
                _raised[c][i] *= gain;
            }
        }
    }

    private double Lower(int channel)
    {
        var raised = _raised[channel];
        var sum = 0.0;
        for (var k = 0; k < raised.Length; k++)
        {
            sum += _taps[k] * raised[raised.Length - 1 - k];
        }

        return sum / Factor;
    }
}
