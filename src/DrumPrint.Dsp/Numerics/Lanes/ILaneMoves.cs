namespace DrumPrint.Dsp.Numerics.Lanes;

/// <summary>Lanes whose numbers can change places: what transforms are made of. Moves change no bit.</summary>
internal interface ILaneMoves<T> : ILanes<T>
    where T : struct, ILaneMoves<T>
{
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
}
