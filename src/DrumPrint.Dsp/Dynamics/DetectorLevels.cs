using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>The highest level of each millisecond as the detector of a gate or a ducker reads it: between the samples too, of two sides the
/// larger, through the key's filters. Changes nothing of the sound.</summary>
public sealed class DetectorLevels : IProcessor
{
    private const int PerSecond = 1000;

    private readonly LinkedPeak _peak;
    private readonly int _rate;
    private readonly long _first;
    private readonly double[] _powers = new double[LaneWidth.Whole(LinkedPeak.MaxFrames)];
    private readonly float[] _levels;
    private long _frame;

    /// <param name="context">The render.</param>
    /// <param name="highPassHz">Corner of the key's high-pass; null for none.</param>
    /// <param name="lowPassHz">Corner of its low-pass; null for none.</param>
    /// <param name="firstFrame">Frame that begins the first millisecond; what lies before is left out.</param>
    public DetectorLevels(ProcessorContext context, double? highPassHz, double? lowPassHz, long firstFrame)
    {
        ArgumentNullException.ThrowIfNull(context);
        _peak = new LinkedPeak(new KeyInput(context, highPassHz, lowPassHz), context.Format.SampleRate);
        (_rate, _first) = (context.Format.SampleRate, firstFrame + _peak.DelayFrames);
        _levels = new float[(context.Frames * PerSecond / _rate) + 1];
    }

    /// <summary>The level of each millisecond, linear.</summary>
    public ReadOnlySpan<float> Levels => _levels;

    public void Process(AudioBlock block, AudioBlock key)
    {
        for (var start = 0; start < block.Frames; start += LinkedPeak.MaxFrames)
        {
            var frames = Math.Min(LinkedPeak.MaxFrames, block.Frames - start);
            _peak.Read(block.Slice(start, frames), _peak.IsExternal ? key.Slice(start, frames) : AudioBlock.None, _powers.AsSpan(0, LaneWidth.Whole(frames)));
            for (var i = 0; i < frames; i++, _frame++)
            {
                var slot = _frame < _first ? -1 : (_frame - _first) * PerSecond / _rate;
                if (slot >= 0 && slot < _levels.Length)
                {
                    _levels[slot] = Math.Max(_levels[slot], (float)Math.Sqrt(_powers[i]));
                }
            }
        }
    }
}
