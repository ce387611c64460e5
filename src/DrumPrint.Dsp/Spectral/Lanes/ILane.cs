namespace DrumPrint.Dsp.Spectral.Lanes;

/// <summary>
/// A few numbers worked on at once, one result in each lane. Every width does the same operations on each number, and no
/// operation mixes lanes in arithmetic, so the width never shows in the bits.
/// </summary>
internal interface ILane<T>
    where T : struct, ILane<T>
{
    /// <summary>Numbers held.</summary>
    static abstract int Width { get; }

    static abstract T Of(double value);

    static abstract T Load(ref double from);

    /// <summary>Loads twice the width and sorts it into the numbers at even and at odd places.</summary>
    static abstract void LoadPairs(ref double from, out T even, out T odd);

    /// <summary>Stores two lanes as pairs: the inverse of <see cref="LoadPairs"/>.</summary>
    static abstract void StorePairs(ref double to, T even, T odd);

    /// <summary>Loads four columns: number j of each comes from row j.</summary>
    static abstract void LoadColumns(ref double from, nint stride, out T a, out T b, out T c, out T d);

    /// <summary>Stores four columns: number j of each goes to row j.</summary>
    static abstract void StoreColumns(ref double to, nint stride, T a, T b, T c, T d);

    /// <summary>The numbers in the opposite order.</summary>
    static abstract T Reverse(T value);

    void Store(ref double to);

    static abstract T operator +(T a, T b);

    static abstract T operator -(T a, T b);

    static abstract T operator *(T a, T b);

    /// <summary>a·b + c, rounded once.</summary>
    static abstract T Fma(T a, T b, T c);

    /// <summary>c − a·b, rounded once.</summary>
    static abstract T FmaNegated(T a, T b, T c);
}
