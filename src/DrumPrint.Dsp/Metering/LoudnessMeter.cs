using System.Numerics;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Metering;

/// <summary>Loudness of a signal: integrated, momentary, short-term and range.</summary>
/// <remarks>
/// Sources: ITU-R BS.1770-5, Annex 1, for K-weighting, for 400 ms blocks every 100 ms, and for gates at −70 LUFS and 10 LU
/// below the mean of what passes it. EBU Tech 3341 for momentary 400 ms and short-term 3 s windows, here every 10 ms. EBU
/// Tech 3342 for the range. Only whole windows count. Windows are counted in frames from the start, so where blocks are cut
/// changes nothing.
/// </remarks>
public sealed class LoudnessMeter
{
    private const int SlicesPerSecond = 100;
    private const int SlicesPerStep = 10;
    private const int Momentary = 0;
    private const int ShortTerm = 1;
    private const double Offset = -0.691;
    private const double AbsoluteGateLufs = -70;
    private const double RelativeGateLu = -10;
    private const double RangeGateLu = -20;
    private const double RangeLow = 0.10;
    private const double RangeHigh = 0.95;

    // 400 ms and 3 s.
    private static readonly int[] Slices = [40, 300];

    private readonly AudioFormat _format;
    private readonly WeightedPower[] _pairs;
    private readonly double[] _weights;
    private readonly double[] _slices;
    private readonly double[]?[] _windows = new double[2][];
    private long _frame;
    private int _slice;

    /// <param name="format">Rate and any number of channels.</param>
    /// <param name="frames">Longest signal in frames; what lies beyond is not heard.</param>
    /// <param name="weights">How much the power of each channel counts, as BS.1770 has it for loudspeakers at the side; 1
    /// each when left out.</param>
    public LoudnessMeter(AudioFormat format, long frames, IReadOnlyList<double>? weights = null)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(format.Channels, 1);
        _format = format;
        _weights = weights is null ? [.. Enumerable.Repeat(1.0, format.Channels)] : [.. weights];
        ArgumentOutOfRangeException.ThrowIfNotEqual(_weights.Length, format.Channels, nameof(weights));
        _pairs = [.. Enumerable.Range(0, (format.Channels + 1) / 2).Select(_ => new WeightedPower(format.SampleRate))];
        _slices = new double[(int)(frames * SlicesPerSecond / format.SampleRate) + 1];
    }

    /// <summary>Loudness of the whole, gated; −∞ when nothing passes the gates.</summary>
    public double IntegratedLufs
    {
        get
        {
            var blocks = Steps(Momentary);
            return Lufs(GatedMean(blocks, Math.Max(Power(AbsoluteGateLufs), Power(Lufs(GatedMean(blocks, Power(AbsoluteGateLufs))) + RelativeGateLu))));
        }
    }

    /// <summary>Loudest 400 ms; −∞ when there are none.</summary>
    public double MomentaryMaxLufs => Lufs(Largest(Momentary));

    /// <summary>Loudest 3 s; −∞ when there are none.</summary>
    public double ShortTermMaxLufs => Lufs(Largest(ShortTerm));

    /// <summary>Loudness range: from the softest tenth to the loudest twentieth of all gated 3 s windows.</summary>
    public double RangeLu
    {
        get
        {
            var windows = Steps(ShortTerm).Where(p => p >= Power(AbsoluteGateLufs)).ToArray();
            if (windows.Length == 0)
            {
                return 0;
            }

            var gate = Power(Lufs(Mean(windows)) + RangeGateLu);
            var kept = windows.Where(p => p >= gate).Order().ToArray();
            double At(double part) => Lufs(kept[(int)Math.Round((kept.Length - 1) * part, MidpointRounding.AwayFromZero)]);
            return At(RangeHigh) - At(RangeLow);
        }
    }

    /// <summary>Forgets what was heard beyond a length; nothing may be added afterwards.</summary>
    /// <param name="frames">Length in frames.</param>
    public void Keep(long frames)
    {
        while (_slice > 0 && Boundary(_slice) > frames)
        {
            _slice--;
        }

        Array.Clear(_windows);
    }

    /// <summary>Listens to the next block.</summary>
    public void Add(AudioBlock block)
    {
        Array.Clear(_windows);
        for (var start = 0; start < block.Frames;)
        {
            var frames = (int)Math.Min(block.Frames - start, Boundary(_slice + 1) - _frame);
            for (var pair = 0; pair < _pairs.Length; pair++)
            {
                _pairs[pair].Add(block[2 * pair].Slice(start, frames), block[Math.Min((2 * pair) + 1, _format.Channels - 1)].Slice(start, frames));
            }

            start += frames;
            _frame += frames;
            if (_frame == Boundary(_slice + 1))
            {
                EndSlice();
            }
        }
    }

    private static double Power(double lufs) => Elementary.Pow(10, (lufs - Offset) / 10);

    private static double Lufs(double power) => Offset + (10 * Elementary.Log10(power));

    private static double Mean(double[] powers)
    {
        var sum = 0.0;
        foreach (var power in powers)
        {
            sum += power;
        }

        return powers.Length == 0 ? 0 : sum / powers.Length;
    }

    // Above the gate, not at it.
    private static double GatedMean(double[] powers, double gate) => Mean([.. powers.Where(p => p > gate)]);

    private long Boundary(int slice) => ((2L * slice * _format.SampleRate) + SlicesPerSecond) / (2 * SlicesPerSecond);

    private void EndSlice()
    {
        var sum = 0.0;
        for (var pair = 0; pair < _pairs.Length; pair++)
        {
            var (left, right) = _pairs[pair].TakeSums();
            sum += _weights[2 * pair] * left;
            sum += (2 * pair) + 1 < _weights.Length ? _weights[(2 * pair) + 1] * right : 0;
        }

        if (_slice < _slices.Length)
        {
            _slices[_slice] = sum;
        }

        _slice++;
    }

    // Every tenth window: one for each 100 ms.
    private double[] Steps(int window)
    {
        var all = Powers(window);
        var steps = new double[(all.Length + SlicesPerStep - 1) / SlicesPerStep];
        for (var i = 0; i < steps.Length; i++)
        {
            steps[i] = all[i * SlicesPerStep];
        }

        return steps;
    }

    private double Largest(int window) => Powers(window).DefaultIfEmpty().Max();

    // Mean power of every whole window, one for each slice; worked out once.
    private double[] Powers(int window)
    {
        if (_windows[window] is { } known)
        {
            return known;
        }

        var length = Slices[window];
        var finished = Math.Min(_slice, _slices.Length);
        var powers = new double[Math.Max(0, finished - length + 1)];
        var i = 0;
        for (; i <= powers.Length - Vector<double>.Count; i += Vector<double>.Count)
        {
            // Lanes are windows, so each sum runs over its slices in order.
            var sums = Vector<double>.Zero;
            for (var slice = i; slice < i + length; slice++)
            {
                sums += new Vector<double>(_slices, slice);
            }

            sums.CopyTo(powers, i);
        }

        for (; i < powers.Length; i++)
        {
            foreach (var slice in _slices.AsSpan(i, length))
            {
                powers[i] += slice;
            }
        }

        for (i = 0; i < powers.Length; i++)
        {
            powers[i] /= Boundary(i + length) - Boundary(i);
        }

        return _windows[window] = powers;
    }
}
