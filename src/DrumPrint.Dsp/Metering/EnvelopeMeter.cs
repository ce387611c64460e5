using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Metering;

/// <summary>How much of the time a sound goes on and how it dies away, from its energy in windows of 10 ms.</summary>
/// <remarks>
/// The decay time is T30 of ISO 3382-1:2009. Energy is summed backwards from the end. The least-squares line from −5 to −35
/// dB is made out to 60 dB. The curve starts with the last window within 10 dB of the loudest. In an impulse response that
/// is near its peak, in a drum track it is the last loud hit. A curve that is not a straight fall gives no time: more than
/// 10 ‰ of non-linearity, the limit of ISO 3382-2:2008, annex B (from memory). Windows are counted in frames from the
/// start, so where blocks are cut changes nothing.
/// The last hour or two are remembered window by window. What lies before is counted by its level, in steps of less than 0.005
/// dB, and a decay that begins there is none.
/// </remarks>
public sealed class EnvelopeMeter
{
    private const int WindowsPerSecond = 100;
    private const double ActivePart = 1e-4;
    private const double LoudPart = 0.1;
    private const double TopDb = -5;
    private const double BottomDb = -35;
    private const double LargestNonLinearity = 0.01;
    private const int FewestPoints = 4;
    private const int RememberedWindows = 3600 * WindowsPerSecond;

    // A number as bits, without all but the first ten of its fraction: steps of one part in a thousand, in the order of size.
    private const int StepBits = 42;

    private readonly AudioFormat _format;
    private readonly int _remembered;
    private readonly List<double> _windows = [];
    private readonly Dictionary<long, long> _framesAtStep = [];
    private readonly double[] _sums;
    private double _loudestEnergy;
    private double _loudestPower;
    private long _first;
    private long _frame;

    public EnvelopeMeter(AudioFormat format)
        : this(format, RememberedWindows)
    {
    }

    internal EnvelopeMeter(AudioFormat format, int rememberedWindows)
    {
        _format = format;
        _remembered = rememberedWindows;
        _sums = new double[format.Channels];
    }

    /// <summary>Part of the time in which the level is within 40 dB of the loudest window; null for silence.</summary>
    public double? ActiveShare
    {
        get
        {
            var powers = Energies().Select((energy, window) => energy / Length(_first + window));
            var loudest = powers.Append(_loudestPower).Max();
            return loudest > 0 ? (double)(Active(powers, loudest * ActivePart) + ActiveBefore(loudest * ActivePart)) / _frame : null;
        }
    }

    /// <summary>Seconds in which the end of the sound falls by 60 dB; null when it does not end in a decay.</summary>
    public double? DecayS
    {
        get
        {
            var energies = Energies();
            var loudest = energies.Append(_loudestEnergy).Max();
            var start = energies.FindLastIndex(e => e >= loudest * LoudPart);
            if (loudest == 0 || start < 0)
            {
                return null;
            }

            var curve = energies[start..];
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
            var frames = (int)Math.Min(block.Frames - start, Boundary(_first + _windows.Count + 1) - _frame);
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
            if (_frame == Boundary(_first + _windows.Count + 1))
            {
                _windows.Add(TakeSum());
                Fold();
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

    // The older half makes way once there is as much again.
    private void Fold()
    {
        if (_windows.Count < 2 * _remembered)
        {
            return;
        }

        for (var window = 0; window < _remembered; window++)
        {
            var frames = Length(_first + window);
            var power = _windows[window] / frames;
            _loudestEnergy = Math.Max(_loudestEnergy, _windows[window]);
            _loudestPower = Math.Max(_loudestPower, power);
            _framesAtStep[Step(power)] = _framesAtStep.GetValueOrDefault(Step(power)) + frames;
        }

        _windows.RemoveRange(0, _remembered);
        _first += _remembered;
    }

    private long Active(IEnumerable<double> powers, double least) => powers.Select((power, window) => power >= least ? Length(_first + window) : 0).Sum();

    private long ActiveBefore(double least) => _framesAtStep.Where(s => s.Key >= Step(least)).Sum(s => s.Value);

    private static long Step(double power) => BitConverter.DoubleToInt64Bits(power) >> StepBits;

    private double TakeSum()
    {
        var sum = Sum(_sums);
        Array.Clear(_sums);
        return sum;
    }

    // The whole windows, and what has begun of the next.
    private List<double> Energies() => _frame > Boundary(_first + _windows.Count) ? [.. _windows, Sum(_sums)] : _windows;

    private long Length(long window) => Math.Min(Boundary(window + 1), _frame) - Boundary(window);

    // At very low rates a window still holds a frame.
    private long Boundary(long window) => (window * Math.Max(WindowsPerSecond, _format.SampleRate)) / WindowsPerSecond;
}
