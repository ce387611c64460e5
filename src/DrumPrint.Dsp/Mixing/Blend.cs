using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Mixing;

/// <summary>Adds and scales stretches of samples, several at a time; each sample sees the same operations at any width.</summary>
public static partial class Blend
{
    /// <summary>target = source × gain.</summary>
    public static void Copy(ReadOnlySpan<double> source, double gain, Span<double> target)
    {
        var kernel = new Scaling(source, gain, target);
        Lanewise.Run(ref kernel);
    }

    /// <summary>target = 0 + source × gain: what <see cref="Add(ReadOnlySpan{double}, double, Span{double})"/> would make of silence.</summary>
    public static void Begin(ReadOnlySpan<double> source, double gain, Span<double> target)
    {
        var kernel = new Beginning(source, gain, target);
        Lanewise.Run(ref kernel);
    }

    /// <summary>target = target + source × gain, the product rounded before it is added.</summary>
    public static void Add(ReadOnlySpan<double> source, double gain, Span<double> target)
    {
        var kernel = new Adding(source, gain, target);
        Lanewise.Run(ref kernel);
    }

    /// <summary>target = target + source × gains, one gain for each sample.</summary>
    public static void Add(ReadOnlySpan<double> source, ReadOnlySpan<double> gains, Span<double> target)
    {
        var kernel = new AddingProducts(source, gains, target);
        Lanewise.Run(ref kernel);
    }

    /// <summary>Each takes the samples of the other; both have the same length.</summary>
    public static void Exchange(Span<double> one, Span<double> other)
    {
        var kernel = new Exchanging(one, other);
        Lanewise.Run(ref kernel);
    }

    /// <summary>The largest magnitude, or <paramref name="floor"/> where that is larger; not a number where one of them is not.</summary>
    public static double Peak(ReadOnlySpan<double> source, double floor)
    {
        var kernel = new PeakSearch(source, floor);
        Lanewise.Run(ref kernel);
        return kernel.Peak;
    }
}
