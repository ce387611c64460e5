namespace DrumPrint.Dsp.Numerics.Lanes;

/// <summary>A function of one number that can be worked out on several lanes at once.</summary>
internal interface ILaneFunction
{
    /// <summary>The function anywhere, special values and all.</summary>
    static abstract double At(double x);

    /// <summary>Whether <see cref="OnMainRange{T}"/> may be used for every lane.</summary>
    static abstract bool IsOnMainRange<T>(T x)
        where T : struct, ILaneBits<T>;

    /// <summary>The function where no special value can arise; the same bits as <see cref="At"/>.</summary>
    static abstract T OnMainRange<T>(T x)
        where T : struct, ILaneBits<T>;
}
