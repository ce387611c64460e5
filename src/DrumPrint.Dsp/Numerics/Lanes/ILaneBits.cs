namespace DrumPrint.Dsp.Numerics.Lanes;

/// <summary>Lanes whose bit patterns can be worked on as well: what functions of a number are made of.</summary>
/// <remarks>Members whose names end in Bits take the lanes as 64-bit patterns.</remarks>
internal interface ILaneBits<T> : ILanes<T>
    where T : struct, ILaneBits<T>
{
    /// <summary>Whether this machine has instructions for this width, fused multiply-add among them.</summary>
    static abstract bool IsFast { get; }

    /// <summary>The same value in every lane, as <see cref="ILanes{T}.Of"/>: functions are full of constants.</summary>
    static abstract implicit operator T(double value);

    /// <summary>The lesser of each pair; no lane may be NaN.</summary>
    static abstract T Lesser(T a, T b);

    /// <summary>The greater of each pair; no lane may be NaN.</summary>
    static abstract T Greater(T a, T b);

    /// <summary>Lanes of <paramref name="then"/> where <paramref name="a"/> is less than <paramref name="b"/>, else of <paramref name="otherwise"/>.</summary>
    static abstract T WhereLess(T a, T b, T then, T otherwise);

    /// <summary>The square root, rounded once.</summary>
    static abstract T Sqrt(T a);

    /// <summary>Whether every lane lies from <paramref name="low"/> to <paramref name="high"/>, both included; false for NaN.</summary>
    static abstract bool AllWithin(T x, double low, double high);

    /// <summary>The same bit pattern in every lane.</summary>
    static abstract T FromBits(long bits);

    static abstract T AddBits(T a, T b);

    static abstract T AndBits(T a, T b);

    static abstract T OrBits(T a, T b);

    static abstract T XorBits(T a, T b);

    static abstract T ShiftBitsLeft(T a, int count);

    static abstract T ShiftBitsRight(T a, int count);

    /// <summary>Lanes of <paramref name="odd"/> where the lowest bit of <paramref name="bits"/> is set, else of <paramref name="even"/>.</summary>
    static abstract T ChooseByLowestBit(T bits, T odd, T even);
}
