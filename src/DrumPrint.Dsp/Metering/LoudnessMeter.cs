using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Metering;

/// <summary>Loudness of a signal: integrated, momentary, short-term and range.</summary>
/// <remarks>
/// Sources: ITU-R BS.1770-5, Annex 1 (K-weighting, 400 ms blocks every 100 ms, gates at −70 LUFS and 10 LU below the mean
/// of what passes it); EBU Tech 3341 (momentary 400 ms and short-term 3 s windows, here every 10 ms); EBU Tech 3342 (range).
/// Only whole windows count. Windows are counted in frames from the start, so where blocks are cut changes nothing.
/// </remarks>
public sealed class LoudnessMeter
{
    private const int SlicesPerSecond = 100;
    private const int SlicesPerStep = 10;
    private const int MomentarySlices = 40;
    private const int ShortTermSlices = 300;
    private const int ChunkFrames = 1024;
    private const double Offset = -0.691;
    private const double AbsoluteGateLufs = -70;
    private const double RelativeGateLu = -10;
    private const double RangeGateLu = -20;
    private const double RangeLow = 0.10;
    private const double RangeHigh = 0.95;

    private readonly AudioFormat _format;
    private readonly FilterCascade[] _single = [];
    private readonly StereoFilterCascade? _stereo;
    private readonly double[] _weights;
    private readonly double[][] _weighted;
    private readonly double[] _sums;
    private readonly double[] _slices;
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
        var weighting = KWeighting.Sections(format.SampleRate);
        if (format.Channels == 2)
        {
            _stereo = new StereoFilterCascade(weighting);
        }
        else
        {
            _single = [.. Enumerable.Range(0, format.Channels).Select(_ => new FilterCascade(weighting))];
        }

        _weighted = [.. Enumerable.Range(0, format.Channels).Select(_ => new double[ChunkFrames])];
        _sums = new double[format.Channels];
        _slices = new double[(int)(frames * SlicesPerSecond / format.SampleRate) + 1];
    }

    /// <summary>Loudness of the whole, gated; −∞ when nothing passes the gates.</summary>
    public double IntegratedLufs
    {
        get
        {
            var blocks = Powers(MomentarySlices, SlicesPerStep);
            return Lufs(GatedMean(blocks, Math.Max(Power(AbsoluteGateLufs), Power(Lufs(GatedMean(blocks, Power(AbsoluteGateLufs))) + RelativeGateLu))));
        }
    }

    /// <summary>Loudest 400 ms; −∞ when there are none.</summary>
    public double MomentaryMaxLufs => Lufs(Powers(MomentarySlices, 1).DefaultIfEmpty().Max());

    /// <summary>Loudest 3 s; −∞ when there are none.</summary>
    public double ShortTermMaxLufs => Lufs(Powers(ShortTermSlices, 1).DefaultIfEmpty().Max());

    /// <summary>Loudness range: from the softest tenth to the loudest twentieth of all gated 3 s windows.</summary>
    public double RangeLu
    {
        get
        {
            var windows = Powers(ShortTermSlices, SlicesPerStep).Where(p => p >= Power(AbsoluteGateLufs)).ToArray();
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
    }

    /// <summary>Listens to the next block.</summary>
    public void Add(AudioBlock block)
    {
        for (var start = 0; start < block.Frames;)
        {
            var frames = (int)Math.Min(Math.Min(ChunkFrames, block.Frames - start), Boundary(_slice + 1) - _frame);
            for (var channel = 0; channel < _weighted.Length; channel++)
            {
                block[channel].Slice(start, frames).CopyTo(_weighted[channel]);
            }

            for (var channel = 0; channel < _single.Length; channel++)
            {
                _single[channel].Process(_weighted[channel].AsSpan(0, frames));
            }

            _stereo?.Process(_weighted[0].AsSpan(0, frames), _weighted[1].AsSpan(0, frames));
            for (var channel = 0; channel < _weighted.Length; channel++)
            {
                var sum = _sums[channel];
                foreach (var sample in _weighted[channel].AsSpan(0, frames))
                {
                    sum += sample * sample;
                }

                _sums[channel] = sum;
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
        if (_slice < _slices.Length)
        {
            var sum = 0.0;
            for (var channel = 0; channel < _sums.Length; channel++)
            {
                sum += _weights[channel] * _sums[channel];
            }

            _slices[_slice] = sum;
        }

        _slice++;
        Array.Clear(_sums);
    }

    // Mean power of every whole window.
    private double[] Powers(int slices, int hop)
    {
        var finished = Math.Min(_slice, _slices.Length);
        var powers = new double[finished < slices ? 0 : ((finished - slices) / hop) + 1];
        for (var i = 0; i < powers.Length; i++)
        {
            var sum = 0.0;
            foreach (var slice in _slices.AsSpan(i * hop, slices))
            {
                sum += slice;
            }

            powers[i] = sum / (Boundary((i * hop) + slices) - Boundary(i * hop));
        }

        return powers;
    }
}
