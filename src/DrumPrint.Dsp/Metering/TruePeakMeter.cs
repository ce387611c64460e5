using System.Numerics;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Mixing;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Metering;

/// <summary>The highest level of the wave between the samples, which a converter will meet.</summary>
/// <remarks>
/// Source: ITU-R BS.1770-5, Annex 2: the largest magnitude after oversampling, here four times (twice from 176.4 kHz on).
/// The interpolator is a longer one than the standard's example, which can read 0.2 dB too high; this one is right to
/// 0.02 dB up to 0.45 of the sample rate, so what it can miss is the peak between two of its own points:
/// <see cref="LargestUnderReadDb"/>.
/// </remarks>
public sealed class TruePeakMeter
{
    private const double AttenuationDb = 60;
    private const double Transition = 0.1;
    private const double HighestPart = 0.45;
    private const double HighestHz = 20000;
    private const int ChunkFrames = 1024;

    // Frames that are passed over together when they cannot hold a new peak.
    private const int PieceFrames = 64;

    // More than all rounding together can add.
    private const double Slack = 1 + 1e-9;

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
        var half = SincKernel.Half(AttenuationDb, Transition);
        _phases = [.. Enumerable.Range(1, Oversampling - 1).Select(p => SincKernel.Taps(half - 1 + ((double)p / Oversampling), half, AttenuationDb))];
        _mostGain = Slack * Math.Max(1, _phases.Max(taps => taps.Sum(Math.Abs)));
        _history = (2 * half) - 1;
        _lines = [.. Enumerable.Range(0, format.Channels).Select(_ => new double[_history + ChunkFrames])];
        _peaks = new double[format.Channels];
    }

    /// <summary>Points looked at for each sample.</summary>
    public int Oversampling { get; }

    /// <summary>The most by which a steady tone up to 20 kHz (or 0.45 of the sample rate) can be read too low, in dB
    /// (negative): 20 log cos(π f / oversampling), f in parts of the rate, the standard's own formula.</summary>
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

    /// <summary>Listens to the next block.</summary>
    public void Add(AudioBlock block)
    {
        for (var channel = 0; channel < _lines.Length; channel++)
        {
            var line = _lines[channel];
            ReadOnlySpan<double> samples = block[channel];
            while (!samples.IsEmpty)
            {
                var frames = Math.Min(ChunkFrames, samples.Length);
                samples[..frames].CopyTo(line.AsSpan(_history));
                for (var start = 0; start < frames; start += PieceFrames)
                {
                    _peaks[channel] = Higher(_peaks[channel], line.AsSpan(start, _history + Math.Min(PieceFrames, frames - start)));
                }

                line.AsSpan(frames, _history).CopyTo(line);
                samples = samples[frames..];
            }
        }
    }

    // No point between samples is higher than the highest sample times the sum of the taps' magnitudes.
    private double Higher(double peak, ReadOnlySpan<double> line) => Blend.Peak(line, 0) * _mostGain <= peak ? peak : Math.Max(peak, Peak(line, line.Length - _history));

    // Lanes hold different frames, and the largest of all does not depend on their order.
    private double Peak(ReadOnlySpan<double> line, int frames)
    {
        var peak = 0.0;
        foreach (var sample in line.Slice(_history, frames))
        {
            peak = Math.Max(peak, Math.Abs(sample));
        }

        foreach (var taps in _phases)
        {
            var frame = 0;
            var highest = Vector<double>.Zero;
            for (; frame <= frames - Vector<double>.Count; frame += Vector<double>.Count)
            {
                var sums = Vector<double>.Zero;
                for (var tap = 0; tap < taps.Length; tap++)
                {
                    sums += new Vector<double>(line[(frame + _history - tap)..]) * taps[tap];
                }

                highest = Vector.Max(highest, Vector.Abs(sums));
            }

            for (var lane = 0; lane < Vector<double>.Count; lane++)
            {
                peak = Math.Max(peak, highest[lane]);
            }

            for (; frame < frames; frame++)
            {
                var sum = 0.0;
                for (var tap = 0; tap < taps.Length; tap++)
                {
                    sum += line[frame + _history - tap] * taps[tap];
                }

                peak = Math.Max(peak, Math.Abs(sum));
            }
        }

        return peak;
    }
}
