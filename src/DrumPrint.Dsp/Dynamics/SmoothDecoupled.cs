using System.Runtime.Intrinsics;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>The two stages of a smooth decoupled detector, for two lanes of reductions in decibels.</summary>
/// <remarks>Source: Giannoulis, Massberg and Reiss, JAES 60(6), 2012, eq. (17). A sliver taken off each frame makes a
/// reduction end in zero, not in subnormal numbers.</remarks>
internal readonly struct SmoothDecoupled(Ballistics ballistics)
{
    private readonly double _leak = ballistics.Leak;
    private readonly double _rise = ballistics.Rise;
    private readonly double _fall = ballistics.Fall;

    /// <summary>Whether a fall keeps as much as a rise, as it does unless the release is short against the attack.</summary>
    public bool IsEven => _rise == _fall;

    private static Vector128<double> Sliver => Vector128.Create(-1e-20);

    /// <summary>The peak hold's next value.</summary>
    public Vector128<double> Hold(Vector128<double> held, Vector128<double> asked) => Hold(held, asked, Fill(asked));

    /// <summary>The same where what the leak lets in is known already.</summary>
    public Vector128<double> Hold(Vector128<double> held, Vector128<double> asked, Vector128<double> fill) =>
        Vector128.MaxNative(asked, Vector128.FusedMultiplyAdd(Vector128.Create(_leak), held, fill));

    /// <summary>What the leak lets in.</summary>
    public Vector128<double> Fill(Vector128<double> asked) => Vector128.FusedMultiplyAdd(Vector128.Create(1 - _leak), asked, Sliver);

    /// <summary>The smoother's next value. A fall is never kept longer than a rise, so the lower of the two is the right one.</summary>
    public Vector128<double> Smooth(Vector128<double> reduction, Vector128<double> held)
    {
        var rising = Rising(reduction, held);
        var falling = Vector128.FusedMultiplyAdd(Vector128.Create(_fall), reduction, Vector128.FusedMultiplyAdd(Vector128.Create(1 - _fall), held, Sliver));
        return Vector128.MaxNative(Vector128.MinNative(rising, falling), Vector128<double>.Zero);
    }

    /// <summary>The same bits where <see cref="IsEven"/>, a quarter sooner.</summary>
    public Vector128<double> SmoothEvenly(Vector128<double> reduction, Vector128<double> held) => Vector128.MaxNative(Rising(reduction, held), Vector128<double>.Zero);

    private Vector128<double> Rising(Vector128<double> reduction, Vector128<double> held) =>
        Vector128.FusedMultiplyAdd(Vector128.Create(_rise), reduction, Vector128.FusedMultiplyAdd(Vector128.Create(1 - _rise), held, Sliver));
}
