using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Plain arithmetic on whole stretches. The first says how many; the others are at least as long.</summary>
internal static partial class StretchMath
{
    /// <summary>Raises values to others where those are higher.</summary>
    public static void Raise(Span<double> values, ReadOnlySpan<double> others)
    {
        var kernel = new Raising(values, others);
        Lanewise.Run(ref kernel);
    }

    /// <summary>Lowers values to others where those are lower.</summary>
    public static void Lower(Span<double> values, ReadOnlySpan<double> others)
    {
        var kernel = new Lowering(values, others);
        Lanewise.Run(ref kernel);
    }

    /// <summary>Moves values a part of the way towards others.</summary>
    public static void Approach(Span<double> values, ReadOnlySpan<double> others, double part)
    {
        var kernel = new Approaching(values, others, part);
        Lanewise.Run(ref kernel);
    }

    /// <summary>Replaces values by the mean of them and others, the same whichever comes first.</summary>
    public static void Mean(Span<double> values, ReadOnlySpan<double> others)
    {
        AddFused(values, others, 1);
        Mix(values, 0.5, 0);
    }

    /// <summary>Replaces values by a multiple of them and a constant.</summary>
    public static void Mix(Span<double> values, double factor, double constant)
    {
        var kernel = new Mixing(values, factor, constant);
        Lanewise.Run(ref kernel);
    }

    /// <summary>Adds a multiple of others, fused into the sum.</summary>
    public static void AddFused(Span<double> values, ReadOnlySpan<double> others, double factor)
    {
        var kernel = new AddingFused(values, others, factor);
        Lanewise.Run(ref kernel);
    }

    /// <summary>Multiplies samples by gains.</summary>
    public static void Scale(Span<double> samples, ReadOnlySpan<double> gains) => Multiply(samples, gains, samples);

    /// <summary>Puts the products of samples and gains where they are wanted.</summary>
    public static void Multiply(ReadOnlySpan<double> samples, ReadOnlySpan<double> gains, Span<double> products)
    {
        var kernel = new Multiplying(samples, gains, products);
        Lanewise.Run(ref kernel);
    }
}
