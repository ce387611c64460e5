using System.Numerics;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Saturation;

/// <summary>Drives a signal into a curve around a working point; silence stays silence and small signals keep their level.</summary>
internal sealed class CurveStage<TCurve> : IOversampledStage
    where TCurve : struct, ICurve
{
    /// <summary>Delay in samples of the full rate.</summary>
    public const double Delay = 0.5;

    private readonly double _drive;
    private readonly double _bias;
    private readonly double _rest;
    private readonly double _scale;

    /// <param name="drive">Gain into the curve.</param>
    /// <param name="bias">Working point, −1 to 1.</param>
    public CurveStage(double drive, double bias)
    {
        _drive = drive;
        _bias = bias;
        var centre = new Vector<double>(bias);
        var share = default(TCurve).Share(centre);
        _rest = default(TCurve).Means(centre, share, centre, share, centre, share).First[0];
        _scale = 1 / default(TCurve).Slope(bias);
    }

    public void Bend(PhaseBuffer input, PhaseBuffer output, int frames)
    {
        var drive = new Vector<double>(_drive);
        var bias = new Vector<double>(_bias);
        var rest = new Vector<double>(_rest);
        var scale = new Vector<double>(_scale);
        ref var samples = ref MemoryMarshal.GetArrayDataReference(input.Samples);
        ref var results = ref MemoryMarshal.GetArrayDataReference(output.Samples);
        for (var n = 0; n < frames * input.Channels; n += Vector<double>.Count)
        {
            // The sample before the first row's is the last row's of the frame before.
            var last = input.Start(input.Phases - 1) - input.Channels;
            var before = Vector.FusedMultiplyAdd(Vector.LoadUnsafe(ref samples, (nuint)(last + n)), drive, bias);
            var shareBefore = default(TCurve).Share(before);
            var i = (nuint)(input.Start(0) + n);
            var o = (nuint)(output.Start(0) + n);
            for (var phase = 0; phase < input.Phases; phase += 2)
            {
                var first = Vector.FusedMultiplyAdd(Vector.LoadUnsafe(ref samples, i), drive, bias);
                var second = Vector.FusedMultiplyAdd(Vector.LoadUnsafe(ref samples, i + (nuint)input.Stride), drive, bias);
                var shareFirst = default(TCurve).Share(first);
                var shareSecond = default(TCurve).Share(second);
                var means = default(TCurve).Means(before, shareBefore, first, shareFirst, second, shareSecond);
                ((means.First - rest) * scale).StoreUnsafe(ref results, o);
                ((means.Second - rest) * scale).StoreUnsafe(ref results, o + (nuint)output.Stride);
                (before, shareBefore) = (second, shareSecond);
                i += (nuint)(2 * input.Stride);
                o += (nuint)(2 * output.Stride);
            }
        }
    }
}
