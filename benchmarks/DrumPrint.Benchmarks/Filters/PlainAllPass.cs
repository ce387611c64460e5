namespace DrumPrint.Benchmarks.Filters;

/// <summary>The Audio EQ Cookbook's all-pass in the textbook's direct form, sample by sample.</summary>
internal sealed class PlainAllPass(double freqHz, double q, int channels)
{
    private readonly double _alpha = Math.Sin(2 * Math.PI * freqHz / 48000) / (2 * q);
    private readonly double _cos = Math.Cos(2 * Math.PI * freqHz / 48000);
    private readonly double[] _x1 = new double[channels];
    private readonly double[] _x2 = new double[channels];
    private readonly double[] _y1 = new double[channels];
    private readonly double[] _y2 = new double[channels];

    public void Process(double[][] signal)
    {
        var a0 = 1 + _alpha;
        var (b0, b1) = ((1 - _alpha) / a0, -2 * _cos / a0);
        for (var c = 0; c < signal.Length; c++)
        {
            foreach (ref var sample in signal[c].AsSpan())
            {
                var y = (b0 * sample) + (b1 * _x1[c]) + _x2[c] - (b1 * _y1[c]) - (b0 * _y2[c]);
                (_x2[c], _x1[c], _y2[c], _y1[c]) = (_x1[c], sample, _y1[c], y);
                sample = y;
            }
        }
    }
}
