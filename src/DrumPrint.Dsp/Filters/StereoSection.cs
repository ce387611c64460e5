using System.Runtime.Intrinsics;

namespace DrumPrint.Dsp.Filters;

/// <summary>A second-order section for left and right at once: the coefficients and states of <see cref="Biquad"/>, one channel in
/// each lane.</summary>
internal struct StereoSection(Biquad section)
{
    public readonly Vector128<double> B0 = Vector128.Create(section.B0);
    public readonly Vector128<double> G1 = Vector128.Create(section.G1);
    public readonly Vector128<double> G2 = Vector128.Create(section.G2);
    public readonly Vector128<double> Keep = Vector128.Create(section.Keep);
    public readonly Vector128<double> D2 = Vector128.Create(section.D2);
    public Vector128<double> S1;
    public Vector128<double> S2;

    /// <summary>Sets states that have faded away to zero.</summary>
    public void Flush()
    {
        S1 = Kept(S1);
        S2 = Kept(S2);
    }

    /// <summary>States that have not faded away; zero for the others.</summary>
    public static Vector128<double> Kept(Vector128<double> state) =>
        Vector128.ConditionalSelect(Vector128.LessThan(Vector128.Abs(state), Vector128.Create(Biquad.Negligible)), Vector128<double>.Zero, state);
}
