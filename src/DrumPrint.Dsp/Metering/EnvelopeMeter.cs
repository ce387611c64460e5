using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Metering;

/// <summary>How much of the time a sound goes on and how it dies away, from its energy in windows of 10 ms.</summary>
/// <remarks>
/// The decay time is T30 of ISO 3382-1:2009. Energy is summed backwards from the end. The least-squares line from −5 to −35
/// dB is made out to 60 dB. The curve starts with the last window within 10 dB of the loudest. In an impulse response that
/// is near its peak, in a drum track it is the last loud hit. A curve that is not a straight fall gives no time: more than
/// 10 ‰ of non-linearity, the limit of ISO 3382-2:2008, annex B (from memory). Windows are counted in frames from the
/// start, so where blocks are cut changes nothing.
/// </remarks>
public sealed class EnvelopeMeter(AudioFormat format)
{
    private const int WindowsPerSecond = 100;
    private const double ActivePart = 1e-4;
    private const double LoudPart = 0.1;
    private const double TopDb = -5;
    private const double BottomDb = -35;
    private const double LargestNonLinearity = 0.01;
    private const int FewestPoints = 4;

    private readonly List<double> _windows = [];
    private readonly double[] _sums = new double[format.Channels];
    private long _frame;

    /// <summary>Part of the time in which the level is within 40 dB of the loudest window; null for silence.</summary>
    public double? ActiveShare
    {
        get
        {
            var powers = Energies().Select((energy, window) => energy / Length(window)).ToArray();
            var loudest = powers.DefaultIfEmpty().Max();
            return loudest > 0 ? (double)powers.Select((power, window) => power >= loudest * ActivePart ? Length(window) : 0).Sum() / _frame : null;
        }
    }

    /// <summary>Seconds in which the end of the sound falls by 60 dB; null when it does not end in a decay.</summary>
    public double? DecayS
    {
        get
        {
            var energies = Energies();
            var loudest = energies.DefaultIfEmpty().Max();
            if (loudest == 0)
            {
                return null;
            }

            var curve = energies[energies.FindLastIndex(e => e >= loudest * LoudPart)..];
            for (var window = curve.Count - 2; window >= 0; window--)
            {
                curve[window] += curve[window + 1];
            }

            return DbPerWindow(curve) is { } slope and < 0 ? -60 / (slope * WindowsPerSecond) : null;
        }
    }

    /// <summary>Listens to the next block.</summary>
    public void Add(AudioBlock block)
    {
        for (var start = 0; start < block.Frames;)
        {
            var frames = (int)Math.Min(block.Frames - start, Boundary(_windows.Count + 1) - _frame);
            for (var channel = 0; channel < _sums.Length; channel++)
            {
                var sum = _sums[channel];
                foreach (var sample in block[channel].Slice(start, frames))
                {
                    sum += sample * sample;
                }

                _sums[channel] = sum;
            }

            start += frames;
            _frame += frames;
            if (_frame == Boundary(_windows.Count + 1))
            {
                _windows.Add(TakeSum());
            }
        }
    }

    // Slope of the line through the curve between the two levels, where the curve is close to one.
    private static double? DbPerWindow(List<double> curve)
    {
        var levels = curve.TakeWhile(e => e > 0).Select(e => 10 * Elementary.Log10(e / curve[0])).SkipWhile(l => l > TopDb).ToArray();
        var points = levels.TakeWhile(l => l >= BottomDb).ToArray();
        if (points.Length < FewestPoints || points.Length == levels.Length)
        {
            return null;
        }

        var (meanT, meanL) = ((points.Length - 1) / 2.0, Sum(points) / points.Length);
        var (tt, tl, ll) = (0.0, 0.0, 0.0);
        for (var t = 0; t < points.Length; t++)
        {
            tt += (t - meanT) * (t - meanT);
            tl += (t - meanT) * (points[t] - meanL);
            ll += (points[t] - meanL) * (points[t] - meanL);
        }

        return tl * tl >= (1 - LargestNonLinearity) * tt * ll ? tl / tt : null;
    }

    private static double Sum(double[] values)
    {
        var sum = 0.0;
        foreach (var value in values)
        {
            sum += value;
        }

        return sum;
    }

    private double TakeSum()
    {
        var sum = Sum(_sums);
        Array.Clear(_sums);
        return sum;
    }

    // The whole windows, and what has begun of the next.
    private List<double> Energies() => _frame > Boundary(_windows.Count) ? [.. _windows, Sum(_sums)] : _windows;

    private long Length(int window) => Math.Min(Boundary(window + 1), _frame) - Boundary(window);

    // At very low rates a window still holds a frame.
    private long Boundary(int window) => ((long)window * Math.Max(WindowsPerSecond, format.SampleRate)) / WindowsPerSecond;
}
