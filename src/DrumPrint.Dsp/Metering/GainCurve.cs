using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;

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

    private static double Lowest(ReadOnlySpan<double> gains)
    {
        var kernel = new LowestSearch(gains);
        Lanewise.Run(ref kernel);
        return kernel.Lowest;
    }

    // The lowest of several does not depend on the order in which they are looked at.
    internal ref struct LowestSearch(ReadOnlySpan<double> gains) : ILaneKernel
    {
        private readonly ref readonly double _gains = ref MemoryMarshal.GetReference(gains);

        public nint Length { get; } = gains.Length;

        public double Lowest { get; private set; } = double.PositiveInfinity;

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public nint Run<T>(nint i)
            where T : struct, ILaneBits<T>
        {
            var length = Length;
            ref readonly var gains = ref _gains;
            var lowest = T.Of(Lowest);
            for (; i <= length - T.Count; i += T.Count)
            {
                lowest = T.Lesser(lowest, T.Load(in gains, i));
            }

            Lowest = T.Least(lowest);
            return i;
        }
    }
}
