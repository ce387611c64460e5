namespace DrumPrint.Benchmarks.Dynamics;

/// <summary>The textbook's look-ahead limiter of samples: the largest of a window, a release, one mean.</summary>
internal sealed class PlainLimiter(int ahead, double ceiling)
{
    public void Process(double[][] channels)
    {
        var frames = channels[0].Length;
        var gains = new double[frames];
        var (gain, sum) = (1.0, (double)ahead);
        for (var n = 0; n < frames; n++)
        {
            var level = 0.0;
            for (var k = n; k < Math.Min(frames, n + ahead); k++)
            {
                foreach (var channel in channels)
                {
                    level = Math.Max(level, Math.Abs(channel[k]));
                }
            }

            gain = Math.Min(Math.Min(1, ceiling / Math.Max(level, ceiling)), 1 - ((1 - gain) * 0.9998));
            gains[n] = gain;
            sum += gain - (n >= ahead ? gains[n - ahead] : 1);
            foreach (var channel in channels)
            {
                channel[n] *= sum / ahead;
            }
        }
    }
}
