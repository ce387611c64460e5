using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Mixing;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Metering;

/// <summary>The highest level of the wave between the samples, which a converter will meet.</summary>
/// <remarks>
/// Source: ITU-R BS.1770-5, Annex 2: the largest magnitude after oversampling, here four times (twice from 176.4 kHz on).
/// The interpolator is longer than the standard's example, which can read 0.2 dB too high. This one is right to 0.02 dB
/// up to 0.45 of the sample rate. So all it can miss is the peak between two of its own points:
/// <see cref="LargestUnderReadDb"/>.
/// </remarks>
public sealed class TruePeakMeter
{
    private const double AttenuationDb = 60;
    private const double Transition = 0.1;
    private const double HighestPart = 0.45;
    private const double HighestHz = 20000;

    // Frames that are passed over together when they cannot hold a new peak.
    private const int PieceFrames = 64;

    // More than all rounding together can add.
    private const double Slack = 1 + 1e-9;

    private static readonly int Half = SincKernel.Half(AttenuationDb, Transition);
    private static readonly double[][] OfTwo = Phases(2);
    private static readonly double[][] OfFour = Phases(4);

    private readonly double[][] _phases;
    private readonly double _mostGain;
    private readonly double[][] _lines;
    private readonly double[] _peaks;
    private readonly int _history;
    private readonly double _highestPart;

    public TruePeakMeter(AudioFormat format)
    {
        Oversampling = format.SampleRate >= 176400 ? 2 : 4;
        _highestPart = Math.Min(HighestPart, HighestHz / format.SampleRate);
        _phases = Oversampling == 2 ? OfTwo : OfFour;
        _mostGain = Slack * Math.Max(1, _phases.Max(taps => taps.Sum(Math.Abs)));
        _history = (2 * Half) - 1;
        _lines = [.. Enumerable.Range(0, format.Channels).Select(_ => new double[_history + PieceFrames])];
        _peaks = new double[format.Channels];
    }

    /// <summary>Points looked at for each sample.</summary>
    public int Oversampling { get; }

    /// <summary>The most by which a steady tone can be read too low, in dB (negative). It holds up to 20 kHz (or 0.45
    /// of the sample rate). The standard's own formula: 20 log cos(π f / oversampling), f in parts of the
    /// rate.</summary>
    public double LargestUnderReadDb => Decibels.FromGain(Elementary.Cos(Math.PI * _highestPart / Oversampling));

    /// <summary>Highest level so far over all channels, in dB TP; −∞ for silence.</summary>
    public double PeakDb
    {
        get
        {
            var peak = 0.0;
            for (var channel = 0; channel < _peaks.Length; channel++)
            {
                // The last samples, with silence after them.
                var rest = new double[(2 * _history) + 1];
                _lines[channel].AsSpan(0, _history).CopyTo(rest);
                peak = Math.Max(peak, Higher(_peaks[channel], rest));
            }

            return Decibels.FromGain(peak);
        }
    }

    /// <summary>Highest level of what has been heard to its end: the last few frames do not count yet, as more is to come.</summary>
    internal double HeardDb => Decibels.FromGain(_peaks.Max());

    /// <summary>Begins to look for the highest level anew; the wave goes on.</summary>
    internal void Forget() => Array.Clear(_peaks);

    /// <summary>Listens to the next block.</summary>
    public void Add(AudioBlock block)
    {
        for (var channel = 0; channel < _lines.Length; channel++)
        {
            // The first frames together with those before them, the others where they lie.
            ReadOnlySpan<double> samples = block[channel];
            var first = Math.Min(samples.Length, PieceFrames);
            var line = _lines[channel].AsSpan(0, _history + first);
            samples[..first].CopyTo(line[_history..]);
            _peaks[channel] = Higher(_peaks[channel], line);
            if (samples.Length > PieceFrames)
            {
                _peaks[channel] = Higher(_peaks[channel], samples[(PieceFrames - _history)..]);
            }

            (samples.Length >= _history ? samples[^_history..] : line[^_history..]).CopyTo(line);
        }
    }

    // A piece is passed over when no point between its samples can be a new peak. No point is higher than the highest sample
    // near it times the sum of the taps' magnitudes.
    private double Higher(double peak, ReadOnlySpan<double> line)
    {
        var highestBefore = Blend.Peak(line[.._history], 0);
        for (var start = 0; start < line.Length - _history; start += PieceFrames)
        {
            var frames = Math.Min(PieceFrames, line.Length - _history - start);
            var highest = Blend.Peak(line.Slice(start + _history, frames), 0);
            peak = Math.Max(peak, highest);
            if (!(Math.Max(highestBefore, highest) * _mostGain <= peak))
            {
                foreach (var taps in _phases)
                {
                    peak = Math.Max(peak, HighestBetween(line.Slice(start, _history + frames), taps));
                }
            }

            highestBefore = frames < _history ? Math.Max(highestBefore, highest) : highest;
        }

        return peak;
    }

    private double HighestBetween(ReadOnlySpan<double> line, double[] taps)
    {
        var kernel = new HighestSum(line, _history, taps);
        Lanewise.Run(ref kernel);
        return kernel.Highest;
    }

    private static double[][] Phases(int oversampling) =>
        [.. Enumerable.Range(1, oversampling - 1).Select(p => SincKernel.Taps(Half - 1 + ((double)p / oversampling), Half, AttenuationDb))];
}
