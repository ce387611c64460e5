using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Benchmarks.Saturation;

/// <summary>The oversampler as one would first write it: the same responses, sample after sample, on ring buffers.</summary>
internal sealed class PlainRate
{
    private readonly Line[] _up;
    private readonly Line[] _down;
    private readonly double[] _samples;
    private readonly double[] _next;

    public PlainRate(int factor, int sampleRate)
    {
        var filters = BandFilter.For(sampleRate);
        var steps = Enumerable.Range(0, int.Log2(factor)).ToArray();
        _up = [.. steps.Select(step => new Line(filters.Up(step)))];
        _down = [.. steps.Skip(1).Reverse().Select(BandFilter.Down).Append(filters.LowPass(filters.LowPassReach(true), _ => 1, true)).Select(r => new Line(r))];
        _samples = new double[factor];
        _next = new double[factor];
    }

    public double Next(double x, Func<double, double> bend)
    {
        var count = 1;
        _samples[0] = x;
        foreach (var line in _up)
        {
            for (var i = 0; i < count; i++)
            {
                line.Push(_samples[i]);
                _next[2 * i] = 2 * line.Sum(0, 2);
                _next[(2 * i) + 1] = 2 * line.Sum(1, 2);
            }

            count *= 2;
            _next.AsSpan(0, count).CopyTo(_samples);
        }

        for (var i = 0; i < count; i++)
        {
            _samples[i] = bend(_samples[i]);
        }

        foreach (var line in _down)
        {
            count /= 2;
            for (var i = 0; i < count; i++)
            {
                line.Push(_samples[2 * i]);
                _next[i] = line.Sum(0, 1);
                line.Push(_samples[(2 * i) + 1]);
            }

            _next.AsSpan(0, count).CopyTo(_samples);
        }

        return _samples[0];
    }

    private sealed class Line(double[] taps)
    {
        private readonly double[] _ring = new double[taps.Length];
        private int _newest;

        public void Push(double x)
        {
            _newest = _newest == 0 ? _ring.Length - 1 : _newest - 1;
            _ring[_newest] = x;
        }

        public double Sum(int first, int every)
        {
            var sum = 0.0;
            var at = _newest;
            for (var k = first; k < taps.Length; k += every)
            {
                sum += taps[k] * _ring[at];
                at = at + 1 == _ring.Length ? 0 : at + 1;
            }

            return sum;
        }
    }
}
