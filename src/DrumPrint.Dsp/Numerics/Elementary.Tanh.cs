using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Numerics;

public static partial class Elementary
{
    /// <summary>Hyperbolic tangent, any x; within 0.65 ulp.</summary>
    public static double Tanh(double x) => double.IsNaN(x) ? x : TanhKernel.Tanh<Lane1>(x).Value;

    internal readonly struct TanhFunction : ILaneFunction
    {
        public static double At(double x) => Tanh(x);

        public static bool IsOnMainRange<T>(T x)
            where T : struct, ILaneBits<T> =>
            T.AllWithin(x, double.NegativeInfinity, double.PositiveInfinity);

        public static T OnMainRange<T>(T x)
            where T : struct, ILaneBits<T> =>
            TanhKernel.Tanh(x);
    }
}
