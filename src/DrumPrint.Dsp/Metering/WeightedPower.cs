using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using DrumPrint.Dsp.Filters;

namespace DrumPrint.Dsp.Metering;

/// <summary>Weights one or two channels for a loudness meter and adds up their squares, frame by frame.</summary>
/// <remarks>The two sections of <see cref="KWeighting"/> as partial fractions, so that they run side by side. Shelf and
/// high-pass, left and right, lie in the four lanes of a vector. In the direct form a result waits for one fused step after the
/// last one. What the form adds in rounding is far below what a meter shows.</remarks>
internal sealed class WeightedPower(int sampleRate)
{
    private readonly PartialFractions _weighting = PartialFractions.Of(KWeighting.Sections(sampleRate));

    // The last frame of the signal, the last two of the fractions.
    private Vector256<double> _x1;
    private Vector256<double> _y1;
    private Vector256<double> _y2;
    private Vector128<double> _sums;

    /// <summary>Listens to the next frames.</summary>
    /// <param name="left">The first channel.</param>
    /// <param name="right">The second, or the first again.</param>
    public void Add(ReadOnlySpan<double> left, ReadOnlySpan<double> right)
    {
        ref var l = ref MemoryMarshal.GetReference(left);
        ref var r = ref MemoryMarshal.GetReference(right[..left.Length]);
        var (one, other) = (_weighting.First, _weighting.Second);
        var direct = Vector128.Create(_weighting.Direct);
        var (b0, b1) = (Lanes(one.B0, other.B0), Lanes(one.B1, other.B1));
        var (a1, a2) = (Lanes(-one.A1, -other.A1), Lanes(-one.A2, -other.A2));
        var (x1, y1, y2, sums) = (_x1, _y1, _y2, _sums);
        for (var n = 0; n < left.Length; n++)
        {
            var frame = Vector128.Create(Unsafe.Add(ref l, n), Unsafe.Add(ref r, n));
            var x = Vector256.Create(frame, frame);
            var y = Vector256.FusedMultiplyAdd(a2, y2, Vector256.FusedMultiplyAdd(b1, x1, b0 * x));
            y = Vector256.FusedMultiplyAdd(a1, y1, y);
            var z = Vector128.FusedMultiplyAdd(direct, frame, y.GetLower() + y.GetUpper());
            sums = Vector128.FusedMultiplyAdd(z, z, sums);
            (x1, y2, y1) = (x, y1, y);
        }

        (_x1, _y1, _y2, _sums) = (x1, y1, y2, sums);
    }

    /// <summary>Gives the sums since the last call, left and right.</summary>
    public (double Left, double Right) TakeSums()
    {
        var sums = _sums;
        _sums = default;
        (_x1, _y1, _y2) = (Kept(_x1), Kept(_y1), Kept(_y2));
        return (sums.GetElement(0), sums.GetElement(1));
    }

    private static Vector256<double> Lanes(double one, double other) => Vector256.Create(one, one, other, other);

    private static Vector256<double> Kept(Vector256<double> state) => Vector256.Create(StereoSection.Kept(state.GetLower()), StereoSection.Kept(state.GetUpper()));
}
