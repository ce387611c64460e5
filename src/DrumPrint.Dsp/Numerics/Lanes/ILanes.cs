namespace DrumPrint.Dsp.Numerics.Lanes;

/// <summary>
/// One or several doubles worked on side by side. A kernel written against this interface does the same operations in
/// the same order for every width. So each lane's bits are those of the scalar.
/// </summary>
/// <remarks>Each operation rounds once and acts on a lane alone: nothing here adds across lanes.</remarks>
internal interface ILanes<T>
    where T : struct, ILanes<T>
{
    /// <summary>How many doubles there are.</summary>
    static abstract int Count { get; }

    /// <summary>The same value in every lane.</summary>
    static abstract T Of(double value);

    static abstract T operator +(T a, T b);

    static abstract T operator -(T a, T b);

    static abstract T operator *(T a, T b);

    static abstract T operator /(T a, T b);

    static abstract T operator -(T a);

    /// <summary>a·b + c, rounded once.</summary>
    static abstract T Fma(T a, T b, T c);

    /// <summary>c − a·b, rounded once.</summary>
    static abstract T FmaNegated(T a, T b, T c);

    static abstract T Load(ref readonly double first);

    void Store(ref double first);

    /// <summary>Loads from a place behind the first.</summary>
    static abstract T Load(ref readonly double first, nint index);

    /// <summary>Stores at a place behind the first.</summary>
    void Store(ref double first, nint index);
}
