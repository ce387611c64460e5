namespace DrumPrint.Fuzz.Mutating;

/// <summary>Numbers that depend on the seed alone, in every version of the runtime.</summary>
/// <remarks>SplitMix64: Steele, Lea and Flood, Fast Splittable Pseudorandom Number Generators (2014).</remarks>
internal sealed class FuzzRandom(ulong seed)
{
    private ulong _state = seed;

    public ulong Next()
    {
        var z = _state += 0x9E37_79B9_7F4A_7C15;
        z = (z ^ (z >> 30)) * 0xBF58_476D_1CE4_E5B9;
        z = (z ^ (z >> 27)) * 0x94D0_49BB_1331_11EB;
        return z ^ (z >> 31);
    }

    /// <summary>From 0 up to, and not including, a bound; 0 where the bound is.</summary>
    public int Below(int bound) => bound <= 0 ? 0 : (int)(Next() % (ulong)bound);

    public T Of<T>(IReadOnlyList<T> items) => items[Below(items.Count)];
}
