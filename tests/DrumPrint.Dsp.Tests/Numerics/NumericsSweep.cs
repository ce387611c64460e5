using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Tests.Numerics;

/// <summary>Arguments made from integers alone, the same on every machine, and a hash over results.</summary>
internal static class NumericsSweep
{
    private static readonly IReadOnlyDictionary<string, (double Low, double High)> Ranges = new Dictionary<string, (double, double)>
    {
        ["Exp"] = (-40, 40),
        ["Exp2"] = (-60, 60),
        ["Expm1"] = (-4, 4),
        ["Log"] = (0, 4),
        ["Log2"] = (0, 4),
        ["Log10"] = (0, 4),
        ["Log1p"] = (-0.99, 4),
        ["Pow"] = (0, 8),
        ["Sin"] = (-50, 50),
        ["Cos"] = (-50, 50),
        ["Tan"] = (-50, 50),
        ["Tanh"] = (-6, 6),
        ["Atan"] = (-6, 6),
        ["BesselI0"] = (0, 20),
        ["ToGain"] = (-150, 30),
        ["FromGain"] = (0, 2),
    };

    /// <summary>Arguments as a render has them.</summary>
    public static double[] Ordinary(string function, int count)
    {
        var noise = CounterNoise.FromName(function);
        var (low, high) = Ranges[function];
        return Enumerable.Range(0, count).Select(n => low + ((high - low) * noise.Unit(n))).ToArray();
    }

    /// <summary>Any doubles at all, subnormals, infinities and NaN among them.</summary>
    public static double[] Anything(int count)
    {
        var noise = CounterNoise.FromName("anything");
        return Enumerable.Range(0, count).Select(n => BitConverter.UInt64BitsToDouble(noise.Bits(n))).ToArray();
    }

    /// <summary>64-bit FNV-1a over the bit patterns of the results.</summary>
    public static ulong Hash(IEnumerable<double> results)
    {
        var hash = 0xCBF2_9CE4_8422_2325UL;
        foreach (var result in results)
        {
            var bits = Bits(result);
            for (var shift = 0; shift < 64; shift += 8)
            {
                hash = unchecked((hash ^ (byte)(bits >> shift)) * 0x0000_0100_0000_01B3);
            }
        }

        return hash;
    }

    /// <summary>The bits of a result, all NaN alike: which NaN an operation makes is the processor's own choice.</summary>
    public static ulong Bits(double result) => BitConverter.DoubleToUInt64Bits(double.IsNaN(result) ? double.NaN : result);
}
