using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Metering;

/// <summary>Level of the last three seconds of a stereo signal, for somebody who watches while it plays.</summary>
/// <remarks>Loudness is the short-term loudness of EBU Tech 3341, over what was heard so far when that is less than 3 s. The true peak is
/// that of the last two to three seconds.</remarks>
public sealed class RunningMeter
{
    private const int Seconds = 3;
    private const int SlicesPerSecond = 100;
    private const int Slices = Seconds * SlicesPerSecond;
    private const double Offset = -0.691;

    private readonly WeightedPower _weighted;
    private readonly TruePeakMeter[] _peaks;
    private readonly double[] _loudness = new double[Slices];
    private readonly double[] _power = new double[Slices];
    private readonly int[] _frames = new int[Slices];
    private int _slice;
    private long _heard;

    /// <param name="sampleRate">Hertz.</param>
    public RunningMeter(int sampleRate)
    {
        _weighted = new WeightedPower(sampleRate);
        _peaks = [.. Enumerable.Range(0, Seconds).Select(_ => new TruePeakMeter(new AudioFormat(sampleRate, 2)))];
    }

    /// <summary>LUFS; −∞ for silence.</summary>
    public double ShortTermLufs => Offset + Decibels.FromGain(Math.Sqrt(_loudness.Sum() / Math.Max(1, _frames.Sum())));

    /// <summary>dB TP; −∞ for silence.</summary>
    public double TruePeakDb => _peaks[NextPeak].HeardDb;

    /// <summary>True peak over mean power, in dB: 3 for a sine; 0 for silence.</summary>
    public double CrestDb => _power.Sum() is > 0 and var power ? TruePeakDb - Decibels.FromGain(Math.Sqrt(power / Math.Max(1, 2 * _frames.Sum()))) : 0;

    // The one that began longest ago.
    private int NextPeak => (int)(_heard / SlicesPerSecond % Seconds);

    /// <summary>Listens to the next block: two channels, about a hundredth of a second.</summary>
    public void Add(AudioBlock block)
    {
        if (_heard % SlicesPerSecond == 0 && _heard > 0)
        {
            _peaks[(NextPeak + Seconds - 1) % Seconds].Forget();
        }

        foreach (var peak in _peaks)
        {
            peak.Add(block);
        }

        _weighted.Add(block[0], block[1]);
        var (left, right) = _weighted.TakeSums();
        var power = 0.0;
        for (var channel = 0; channel < 2; channel++)
        {
            foreach (var sample in block[channel])
            {
                power += sample * sample;
            }
        }

        (_loudness[_slice], _power[_slice], _frames[_slice]) = (left + right, power, block.Frames);
        _slice = (_slice + 1) % Slices;
        _heard++;
    }
}
