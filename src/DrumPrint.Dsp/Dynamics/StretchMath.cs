using System.Numerics;

namespace DrumPrint.Dsp.Dynamics;

/// <summary>Plain arithmetic on whole stretches.</summary>
/// <remarks>Unless said otherwise the first stretch's length is a multiple of the vector's and the second is at least as
/// long.</remarks>
internal static class StretchMath
{
    /// <summary>Replaces samples by their magnitudes.</summary>
    public static void Magnitudes(Span<double> samples)
    {
        for (var i = 0; i < samples.Length; i += Vector<double>.Count)
        {
            Vector.Abs(new Vector<double>(samples[i..])).CopyTo(samples[i..]);
        }
    }

    /// <summary>Raises values to others where those are higher.</summary>
    public static void Raise(Span<double> values, ReadOnlySpan<double> others)
    {
        for (var i = 0; i < values.Length; i += Vector<double>.Count)
        {
            Vector.Max(new Vector<double>(values[i..]), new Vector<double>(others[i..])).CopyTo(values[i..]);
        }
    }

    /// <summary>Lowers values to others where those are lower.</summary>
    public static void Lower(Span<double> values, ReadOnlySpan<double> others)
    {
        for (var i = 0; i < values.Length; i += Vector<double>.Count)
        {
            Vector.Min(new Vector<double>(values[i..]), new Vector<double>(others[i..])).CopyTo(values[i..]);
        }
    }

    /// <summary>Moves values a part of the way towards others.</summary>
    public static void Approach(Span<double> values, ReadOnlySpan<double> others, double part)
    {
        var parts = new Vector<double>(part);
        for (var i = 0; i < values.Length; i += Vector<double>.Count)
        {
            var value = new Vector<double>(values[i..]);
            Vector.FusedMultiplyAdd(parts, new Vector<double>(others[i..]) - value, value).CopyTo(values[i..]);
        }
    }

    /// <summary>Multiplies samples, of any number, by gains.</summary>
    public static void Scale(Span<double> samples, ReadOnlySpan<double> gains)
    {
        var i = 0;
        for (; i <= samples.Length - Vector<double>.Count; i += Vector<double>.Count)
        {
            (new Vector<double>(samples[i..]) * new Vector<double>(gains[i..])).CopyTo(samples[i..]);
        }

        for (; i < samples.Length; i++)
        {
            samples[i] *= gains[i];
        }
    }
}
