using System.Numerics;
using System.Runtime.InteropServices;

namespace DrumPrint.Dsp.Metering;

/// <summary>The lowest gain of each 10 ms of a render: a compressor's or gate's work as a curve for reports.</summary>
/// <remarks>Windows are counted in frames from the start of the render, so the curve does not depend on block size.</remarks>
public sealed class GainCurve
{
    private readonly float[] _lowestGain;
    private int _window;
    private int _frameInWindow;
    private double _lowest = double.PositiveInfinity;

    /// <param name="sampleRate">Hertz.</param>
    /// <param name="frames">Longest render in frames; what lies beyond is not recorded.</param>
    public GainCurve(int sampleRate, long frames)
    {
        WindowFrames = Math.Max(1, sampleRate / 100);
        _lowestGain = new float[(frames + WindowFrames - 1) / WindowFrames];
    }

    /// <summary>Frames in one window.</summary>
    public int WindowFrames { get; }

    /// <summary>The lowest linear gain of each finished window, in order.</summary>
    public ReadOnlySpan<float> LowestGain => _lowestGain.AsSpan(0, _window);

    /// <summary>Adds the linear gain applied to the next frame.</summary>
    public void Add(double gain)
    {
        if (gain < _lowest)
        {
            _lowest = gain;
        }

        if (++_frameInWindow == WindowFrames)
        {
            if (_window < _lowestGain.Length)
            {
                _lowestGain[_window++] = (float)_lowest;
            }

            _frameInWindow = 0;
            _lowest = double.PositiveInfinity;
        }
    }

    /// <summary>Adds the linear gains applied to the next frames.</summary>
    public void Add(ReadOnlySpan<double> gains)
    {
        while (!gains.IsEmpty)
        {
            var stretch = Math.Min(gains.Length, WindowFrames - _frameInWindow);
            var lowest = Lowest(gains[..stretch]);
            _frameInWindow += stretch - 1;
            Add(lowest);
            gains = gains[stretch..];
        }
    }

    // The lowest of several does not depend on the order in which they are looked at.
    private static double Lowest(ReadOnlySpan<double> gains)
    {
        var lowest = new Vector<double>(double.PositiveInfinity);
        var i = 0;
        ref var first = ref MemoryMarshal.GetReference(gains);
        for (; i <= gains.Length - Vector<double>.Count; i += Vector<double>.Count)
        {
            lowest = Vector.MinNative(lowest, Vector.LoadUnsafe(ref first, (nuint)i));
        }

        var result = double.PositiveInfinity;
        for (var lane = 0; lane < Vector<double>.Count; lane++)
        {
            result = Math.Min(result, lowest[lane]);
        }

        for (; i < gains.Length; i++)
        {
            result = Math.Min(result, gains[i]);
        }

        return result;
    }
}
