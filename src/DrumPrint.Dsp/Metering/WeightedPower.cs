using System.Runtime.Intrinsics;
using DrumPrint.Dsp.Filters;

namespace DrumPrint.Dsp.Metering;

/// <summary>Weights one or two channels for a loudness meter and adds up their squares, frame by frame.</summary>
/// <remarks>The two sections of <see cref="KWeighting"/> with the operations of <see cref="Biquad"/>, left and right in the lanes of
/// a vector, so that nothing is written down between filter and sum.</remarks>
internal sealed class WeightedPower(int sampleRate)
{
    private StereoSection _shelf = new(new Biquad(KWeighting.Sections(sampleRate)[0]));
    private StereoSection _highPass = new(new Biquad(KWeighting.Sections(sampleRate)[1]));
    private Vector128<double> _sums;
    private int _untilFlush = Biquad.FlushFrames;

    /// <summary>Listens to the next frames.</summary>
    /// <param name="left">The first channel.</param>
    /// <param name="right">The second, or the first again.</param>
    public void Add(ReadOnlySpan<double> left, ReadOnlySpan<double> right)
    {
        while (!left.IsEmpty)
        {
            var frames = Math.Min(left.Length, _untilFlush);
            Run(left[..frames], right[..frames]);
            _untilFlush -= frames;
            if (_untilFlush == 0)
            {
                _untilFlush = Biquad.FlushFrames;
                _shelf.Flush();
                _highPass.Flush();
            }

            left = left[frames..];
            right = right[frames..];
        }
    }

    /// <summary>Gives the sums since the last call, left and right.</summary>
    public (double Left, double Right) TakeSums()
    {
        var sums = _sums;
        _sums = default;
        return (sums.GetElement(0), sums.GetElement(1));
    }

    private void Run(ReadOnlySpan<double> left, ReadOnlySpan<double> right)
    {
        var (b0, g1, g2, keep, d2) = (_shelf.B0, _shelf.G1, _shelf.G2, _shelf.Keep, _shelf.D2);
        var (c0, h1, h2, hold, e2) = (_highPass.B0, _highPass.G1, _highPass.G2, _highPass.Keep, _highPass.D2);
        var (s1, s2, t1, t2, sums) = (_shelf.S1, _shelf.S2, _highPass.S1, _highPass.S2, _sums);
        for (var n = 0; n < left.Length; n++)
        {
            var x = Vector128.Create(left[n], right[n]);
            var y = Vector128.FusedMultiplyAdd(b0, x, s1);
            var next = Vector128.FusedMultiplyAdd(keep, s1, Vector128.FusedMultiplyAdd(g1, x, s2));
            s2 = Vector128.FusedMultiplyAdd(d2, s1, Vector128.FusedMultiplyAdd(g2, x, s2));
            s1 = next;
            var z = Vector128.FusedMultiplyAdd(c0, y, t1);
            next = Vector128.FusedMultiplyAdd(hold, t1, Vector128.FusedMultiplyAdd(h1, y, t2));
            t2 = Vector128.FusedMultiplyAdd(e2, t1, Vector128.FusedMultiplyAdd(h2, y, t2));
            t1 = next;
            sums += z * z;
        }

        (_shelf.S1, _shelf.S2, _highPass.S1, _highPass.S2, _sums) = (s1, s2, t1, t2, sums);
    }
}
