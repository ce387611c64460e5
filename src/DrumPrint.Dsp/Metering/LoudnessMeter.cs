using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Metering;

/// <summary>Loudness of a signal: integrated, momentary, short-term and range.</summary>
/// <remarks>
/// Sources: ITU-R BS.1770-5, Annex 1, for K-weighting, for 400 ms blocks every 100 ms, and for gates at −70 LUFS and 10 LU
/// below the mean of what passes it. EBU Tech 3341 for momentary 400 ms and short-term 3 s windows, here every 10 ms. EBU
/// Tech 3342 for the range. Only whole windows count. Windows are counted in frames from the start, so where blocks are cut
/// changes nothing.
/// The last hour or two are remembered slice by slice; of what lies before, the windows that the figures are made of.
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

    // An hour: no print is cut by as much.
    private const int RememberedSlices = 3600 * SlicesPerSecond;
    private const int FoldedAtOnce = 600 * SlicesPerStep;

    // 400 ms and 3 s.
    private static readonly int[] Slices = [40, 300];

    private readonly AudioFormat _format;
    private readonly WeightedPower[] _pairs;
    private readonly double[] _weights;
    private readonly int _remembered;
    private readonly long _most;
    private readonly double[]?[] _windows = new double[2][];
    private readonly List<double>[] _steps = [[], []];
    private readonly double[] _largest = new double[2];
    private readonly double[] _slices;
    private long _frame;
    private long _first;
    private int _slice;

    /// <param name="format">Rate and any number of channels.</param>
    /// <param name="frames">Longest signal in frames; what lies beyond is not heard.</param>
    /// <param name="weights">How much the power of each channel counts, as BS.1770 has it for loudspeakers at the side; 1
    /// each when left out.</param>
    public LoudnessMeter(AudioFormat format, long frames, IReadOnlyList<double>? weights = null)
        : this(format, frames, weights, RememberedSlices)
    {
    }

    internal LoudnessMeter(AudioFormat format, long frames, IReadOnlyList<double>? weights, int rememberedSlices)
    {
        // Every tenth window counts, before and after.
        ArgumentOutOfRangeException.ThrowIfNotEqual(rememberedSlices % SlicesPerStep, 0);
        ArgumentOutOfRangeException.ThrowIfLessThan(rememberedSlices, Slices[ShortTerm]);
        ArgumentOutOfRangeException.ThrowIfLessThan(format.Channels, 1);
        _format = format;
        _weights = weights is null ? [.. Enumerable.Repeat(1.0, format.Channels)] : [.. weights];
        ArgumentOutOfRangeException.ThrowIfNotEqual(_weights.Length, format.Channels, nameof(weights));
        _pairs = [.. Enumerable.Range(0, (format.Channels + 1) / 2).Select(_ => new WeightedPower(format.SampleRate))];
        _remembered = rememberedSlices;
        _most = (frames * SlicesPerSecond / format.SampleRate) + 1;
        _slices = new double[(int)Math.Min(_most, 2 * rememberedSlices)];
    }

    /// <summary>Loudness of the whole, gated; −∞ when nothing passes the gates.</summary>
    public double IntegratedLufs
    {
        get
        {
            var blocks = Steps(Momentary);
            return Lufs(Mean(blocks, Math.Max(Power(AbsoluteGateLufs), Power(Lufs(Mean(blocks, Power(AbsoluteGateLufs))) + RelativeGateLu))));
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
            var absolute = Power(AbsoluteGateLufs);
            var windows = Steps(ShortTerm).Where(p => p >= absolute);
            if (!windows.Any())
            {
                return 0;
            }

            // Counted first: of a long sound there are many, and each array is taken once.
            var gate = Power(Lufs(Mean(windows, double.NegativeInfinity)) + RangeGateLu);
            var kept = new double[windows.Count(p => p >= gate)];
            var count = 0;
            foreach (var power in windows.Where(p => p >= gate))
            {
                kept[count++] = power;
            }

            Array.Sort(kept);
            double At(double part) => Lufs(kept[(int)Math.Round((kept.Length - 1) * part, MidpointRounding.AwayFromZero)]);
            return At(RangeHigh) - At(RangeLow);
        }
    }

    /// <summary>Forgets what was heard beyond a length; nothing may be added afterwards.</summary>
    /// <param name="frames">Length in frames; at most an hour is forgotten of a sound of more than two.</param>
    public void Keep(long frames)
    {
        while (_slice > 0 && Boundary(_first + _slice) > frames)
        {
            _slice--;
        }

        if (_first > 0 && _slice < Slices[ShortTerm])
        {
            throw new ArgumentOutOfRangeException(nameof(frames), "The windows of so long ago are known only together.");
        }

        Array.Clear(_windows);
    }

    /// <summary>Listens to the next block.</summary>
    public void Add(AudioBlock block)
    {
        Array.Clear(_windows);
        for (var start = 0; start < block.Frames;)
        {
            var frames = (int)Math.Min(block.Frames - start, Boundary(_first + _slice + 1) - _frame);
            for (var pair = 0; pair < _pairs.Length; pair++)
            {
                _pairs[pair].Add(block[2 * pair].Slice(start, frames), block[Math.Min((2 * pair) + 1, _format.Channels - 1)].Slice(start, frames));
            }

            start += frames;
            _frame += frames;
            if (_frame == Boundary(_first + _slice + 1))
            {
                EndSlice();
            }
        }
    }

    private static double Power(double lufs) => Elementary.Pow(10, (lufs - Offset) / 10);

    private static double Lufs(double power) => Offset + (10 * Elementary.Log10(power));

    // Of what is above the gate, not at it.
    private static double Mean(IEnumerable<double> powers, double gate)
    {
        var (sum, count) = (0.0, 0);
        foreach (var power in powers)
        {
            if (power > gate)
            {
                sum += power;
                count++;
            }
        }

        return count == 0 ? 0 : sum / count;
    }

    private long Boundary(long slice) => ((2L * slice * _format.SampleRate) + SlicesPerSecond) / (2 * SlicesPerSecond);

    private void EndSlice()
    {
        var sum = 0.0;
        for (var pair = 0; pair < _pairs.Length; pair++)
        {
            var (left, right) = _pairs[pair].TakeSums();
            sum += _weights[2 * pair] * left;
            sum += (2 * pair) + 1 < _weights.Length ? _weights[(2 * pair) + 1] * right : 0;
        }

        if (_slice == _slices.Length && _first + _slice < _most)
        {
            Fold();
        }

        if (_slice < _slices.Length)
        {
            _slices[_slice] = sum;
        }

        _slice++;
    }

    // The older half of the slices makes way; what its windows come to is kept.
    private void Fold()
    {
        var powers = new double[Math.Min(_remembered, FoldedAtOnce)];
        for (var window = 0; window < Slices.Length; window++)
        {
            _steps[window].EnsureCapacity((int)(_most / SlicesPerStep) + 1);
            for (var start = 0; start < _remembered; start += powers.Length)
            {
                var part = powers.AsSpan(0, Math.Min(powers.Length, _remembered - start));
                Fill(window, start, part);
                for (var i = 0; i < part.Length; i++)
                {
                    _largest[window] = Math.Max(_largest[window], part[i]);
                    if (i % SlicesPerStep == 0)
                    {
                        _steps[window].Add(part[i]);
                    }
                }
            }
        }

        Array.Copy(_slices, _remembered, _slices, 0, _remembered);
        _first += _remembered;
        _slice -= _remembered;
    }

    // Every tenth window: one for each 100 ms.
    private IEnumerable<double> Steps(int window)
    {
        var all = Powers(window);
        return _steps[window].Concat(Enumerable.Range(0, (all.Length + SlicesPerStep - 1) / SlicesPerStep).Select(i => all[i * SlicesPerStep]));
    }

    private double Largest(int window) => Powers(window).Append(_largest[window]).Max();

    // Mean power of every whole window that is remembered, one for each slice; worked out once.
    private double[] Powers(int window)
    {
        if (_windows[window] is { } known)
        {
            return known;
        }

        var powers = new double[Math.Max(0, Math.Min(_slice, _slices.Length) - Slices[window] + 1)];
        Fill(window, 0, powers);
        return _windows[window] = powers;
    }

    // The mean powers of the windows from a slice on.
    private void Fill(int window, int first, Span<double> powers)
    {
        var length = Slices[window];
        var kernel = new WindowSums(powers, _slices.AsSpan(first), length);
        Lanewise.Run(ref kernel);
        for (var i = 0; i < powers.Length; i++)
        {
            powers[i] /= Boundary(_first + first + i + length) - Boundary(_first + first + i);
        }
    }
}
