namespace DrumPrint.Benchmarks.Dynamics;

/// <summary>The textbook's difference of a fast and a slow follower in decibels, of samples.</summary>
internal sealed class PlainHits(double begin, double body)
{
    private double _fast;
    private double _slow;
    private double _long;

    public void Process(double[][] channels)
    {
        for (var n = 0; n < channels[0].Length; n++)
        {
            var level = 1e-9;
            foreach (var channel in channels)
            {
                level = Math.Max(level, Math.Abs(channel[n]));
            }

            _fast = Math.Max(level, _fast + (0.002 * (level - _fast)));
            _slow = Math.Min(_fast, _slow + (0.0003 * (_fast - _slow)));
            _long = Math.Max(_fast, _long + (0.00007 * (_fast - _long)));
            var up = Math.Min(12, 20 * Math.Log10(_fast / Math.Max(_slow, 1e-9)));
            var down = Math.Min(12, 20 * Math.Log10(_long / _fast));
            var gain = Math.Pow(10, ((begin * up) + (body * down)) / 240);
            foreach (var channel in channels)
            {
                channel[n] *= gain;
            }
        }
    }
}
