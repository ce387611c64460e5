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

    /// <summary>Lanes of <paramref name="a"/> where it is less, else of <paramref name="b"/>: so too where they are equal or one is NaN.</summary>
    static abstract T Lesser(T a, T b);

    /// <summary>Lanes of <paramref name="a"/> where it is greater, else of <paramref name="b"/>: so too where they are equal or one is NaN.</summary>
    static abstract T Greater(T a, T b);

    /// <summary>The larger of each pair as <see cref="Math.Max(double, double)"/> has it: NaN where one is NaN, and 0 above −0.</summary>
    static abstract T Max(T a, T b);

    /// <summary>The magnitude: without its sign bit.</summary>
    static abstract T Abs(T a);

    /// <summary>The nearest whole number, halves to even.</summary>
    static abstract T Round(T a);

    /// <summary>All bits set where <paramref name="a"/> is less than <paramref name="b"/>, else none.</summary>
    static abstract T Less(T a, T b);

    /// <summary>All bits set where <paramref name="a"/> is at most <paramref name="b"/>, else none.</summary>
    static abstract T LessOrEqual(T a, T b);

    /// <summary>Whether every lane of <paramref name="a"/> is less than that of <paramref name="b"/>; false for NaN.</summary>
    static abstract bool AllLess(T a, T b);

    /// <summary>Whether any lane has any bit set: a mask, or anything but 0.</summary>
    static abstract bool AnyBits(T a);

    /// <summary>The largest lane as <see cref="Math.Max(double, double)"/> has it, in whatever order.</summary>
    static abstract double Greatest(T a);

    /// <summary>The smallest lane as <see cref="Math.Min(double, double)"/> has it, in whatever order.</summary>
    static abstract double Least(T a);

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
