using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using DrumPrint.Dsp.Filters;

namespace DrumPrint.Dsp.Metering;

/// <summary>Weights one or two channels for a loudness meter and adds up their squares, frame by frame.</summary>
/// <remarks>The two sections of <see cref="KWeighting"/>, left and right in the lanes of a vector, so that nothing is written down
/// between filter and sum. In the direct form a result waits for one fused step after the last one; what it adds in rounding is
/// far below what a meter shows.</remarks>
internal sealed class WeightedPower(int sampleRate)
{
    private readonly BiquadCoefficients[] _sections = KWeighting.Sections(sampleRate);

    // The last two frames of the signal, of the shelf's and of the high-pass's.
    private Vector128<double> _x1;
    private Vector128<double> _x2;
    private Vector128<double> _y1;
    private Vector128<double> _y2;
    private Vector128<double> _z1;
    private Vector128<double> _z2;
    private Vector128<double> _sums;

    /// <summary>Listens to the next frames.</summary>
    /// <param name="left">The first channel.</param>
    /// <param name="right">The second, or the first again.</param>
    public void Add(ReadOnlySpan<double> left, ReadOnlySpan<double> right)
    {
        ref var l = ref MemoryMarshal.GetReference(left);
        ref var r = ref MemoryMarshal.GetReference(right[..left.Length]);
        var (b0, b1, b2, a1, a2) = Vectors(_sections[0]);
        var (d0, d1, d2, c1, c2) = Vectors(_sections[1]);
        var (x1, x2, y1, y2, z1, z2, sums) = (_x1, _x2, _y1, _y2, _z1, _z2, _sums);
        for (var n = 0; n < left.Length; n++)
        {
            var x = Vector128.Create(Unsafe.Add(ref l, n), Unsafe.Add(ref r, n));
            var y = Vector128.FusedMultiplyAdd(b2, x2, Vector128.FusedMultiplyAdd(b1, x1, b0 * x));
            y = Vector128.FusedMultiplyAdd(a1, y1, Vector128.FusedMultiplyAdd(a2, y2, y));
            var z = Vector128.FusedMultiplyAdd(d2, y2, Vector128.FusedMultiplyAdd(d1, y1, d0 * y));
            z = Vector128.FusedMultiplyAdd(c1, z1, Vector128.FusedMultiplyAdd(c2, z2, z));
            sums = Vector128.FusedMultiplyAdd(z, z, sums);
            (x2, x1) = (x1, x);
            (y2, y1) = (y1, y);
            (z2, z1) = (z1, z);
        }

        (_x1, _x2, _y1, _y2, _z1, _z2, _sums) = (x1, x2, y1, y2, z1, z2, sums);
    }

    /// <summary>Gives the sums since the last call, left and right.</summary>
    public (double Left, double Right) TakeSums()
    {
        var sums = _sums;
        _sums = default;
        (_x1, _x2, _y1, _y2, _z1, _z2) = (StereoSection.Kept(_x1), StereoSection.Kept(_x2), StereoSection.Kept(_y1), StereoSection.Kept(_y2), StereoSection.Kept(_z1), StereoSection.Kept(_z2));
        return (sums.GetElement(0), sums.GetElement(1));
    }

    // b0, b1, b2, −a1, −a2 in every lane.
    private static (Vector128<double> B0, Vector128<double> B1, Vector128<double> B2, Vector128<double> A1, Vector128<double> A2) Vectors(BiquadCoefficients section) =>
        (Vector128.Create(section.B0), Vector128.Create(section.B1), Vector128.Create(section.B2), Vector128.Create(-section.A1), Vector128.Create(-section.A2));
}
