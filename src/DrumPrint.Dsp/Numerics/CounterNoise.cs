namespace DrumPrint.Dsp.Numerics;

/// <summary>
/// Random numbers addressed by seed and counter. Any draw can be made on its own, in any order, on any thread. It is
/// always the same.
/// </summary>
/// <remarks>The counter, spread by an odd constant, goes through a 64-bit finalising mixer (two multiply–xor-shift
/// rounds, the construction known as SplitMix64).</remarks>
public readonly struct CounterNoise(ulong seed)
{
    private readonly ulong _seed = Mix(seed + 0x9E37_79B9_7F4A_7C15);

    /// <summary>Makes the generator that belongs to a name, by a 64-bit FNV-1a hash of its UTF-16 units.</summary>
    public static CounterNoise FromName(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        var hash = 0xCBF2_9CE4_8422_2325UL;
        foreach (var unit in name)
        {
            hash = (hash ^ (byte)unit) * 0x0000_0100_0000_01B3;
            hash = (hash ^ (byte)(unit >> 8)) * 0x0000_0100_0000_01B3;
        }

        return new CounterNoise(hash);
    }

    /// <summary>64 random bits for one counter value.</summary>
    public ulong Bits(long counter) => Mix(_seed + ((ulong)counter * 0x9E37_79B9_7F4A_7C15));

    /// <summary>A number from 0 up to but not including 1.</summary>
    public double Unit(long counter) => (Bits(counter) >> 11) * (1.0 / (1UL << 53));

    /// <summary>A number from −1 up to but not including 1.</summary>
    public double Bipolar(long counter) => ((long)Bits(counter) >> 10) * (1.0 / (1L << 53));

    private static ulong Mix(ulong z)
    {
        z = (z ^ (z >> 30)) * 0xBF58_476D_1CE4_E5B9;
        z = (z ^ (z >> 27)) * 0x94D0_49BB_1331_11EB;
        return z ^ (z >> 31);
    }
}
