using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Demo.Faults;

/// <summary>What is left of a file that has been through a lossy format: nothing at the top, and all of it late.</summary>
/// <remarks>A windowed sinc with a Blackman window (Oppenheim and Schafer, Discrete-Time Signal Processing, from memory).</remarks>
internal sealed class LossyLook
{
    /// <summary>Frames by which an encoder and its decoder put sound off.</summary>
    public const int LateFrames = 1105;

    /// <summary>Frames the filter itself takes.</summary>
    public const int OwnLateFrames = Half;

    private const int Half = 511;
    private const double EdgeHz = 16000;

    private readonly PartitionedConvolver _filter;
    private readonly double[][] _out;

    public LossyLook(int rateHz)
    {
        _filter = new PartitionedConvolver([Sinc(rateHz)], [new ConvolutionPath(0, 0, 0), new ConvolutionPath(1, 0, 1)], SpoiledFile.BlockFrames);
        _out = [new double[SpoiledFile.BlockFrames], new double[SpoiledFile.BlockFrames]];
    }

    /// <summary>Does it to a block of stereo.</summary>
    public void Process(double[][] block)
    {
        _filter.Process(block, _out);
        for (var c = 0; c < _out.Length; c++)
        {
            _out[c].CopyTo(block[c], 0);
        }
    }

    private static double[] Sinc(int rateHz)
    {
        var taps = new double[(2 * Half) + 1];
        var edge = EdgeHz / rateHz;
        for (var n = -Half; n <= Half; n++)
        {
            var window = 0.42 + (0.5 * Elementary.Cos(Math.PI * n / Half)) + (0.08 * Elementary.Cos(2 * Math.PI * n / Half));
            taps[n + Half] = window * (n == 0 ? 2 * edge : Elementary.SinCos(2 * Math.PI * edge * n).Sin / (Math.PI * n));
        }

        return taps;
    }
}
