using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Tests.Numerics;

/// <summary>Something to be done in lanes, in each width, and what numbers it may meet.</summary>
internal sealed record LaneTrial(LaneTrial.Form One, LaneTrial.Form Two, LaneTrial.Form Four, LaneTrial.Form Eight, Func<double, double> Allowed)
{
    /// <summary>Everything that comes of three stretches of the same length.</summary>
    public delegate double[] Form(double[] a, double[] b, double[] c);

    public static LaneTrial Of<TWork>(Func<double, double>? allowed = null)
        where TWork : ILaneWork =>
        new(TWork.Do<Lane1>, TWork.Do<Lane2>, TWork.Do<Lane4>, TWork.Do<Lane8>, allowed ?? (x => x));

    /// <summary>Runs a kernel as <see cref="Lanewise.Run"/> does, in a width of choice.</summary>
    public static void Run<T, TKernel>(ref TKernel kernel)
        where T : struct, ILaneBits<T>
        where TKernel : struct, ILaneKernel, allows ref struct
    {
        var i = kernel.Run<T>(0);
        if (i < kernel.Length)
        {
            kernel.Run<Lane1>(i);
        }
    }
}

/// <summary>Something to be done in lanes of any width.</summary>
internal interface ILaneWork
{
    static abstract double[] Do<T>(double[] a, double[] b, double[] c)
        where T : struct, ILaneBits<T>;
}
