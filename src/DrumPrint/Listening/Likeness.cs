namespace DrumPrint.Listening;

/// <summary>Whether two microphones hear the same drum: whether the hits that are loud in one are those that are loud in the other.</summary>
internal static class Likeness
{
    private const double LowestDb = -24;

    /// <summary>Correlation of the levels of all hits, −1 to 1.</summary>
    public static double Of(Take take, int a, int b)
    {
        var (sumA, sumB, squareA, squareB, product) = (0.0, 0.0, 0.0, 0.0, 0.0);
        var count = take.Kit.Frames.Count;
        for (var h = 0; h < count; h++)
        {
            var (x, y) = (Math.Max(LowestDb, take.Kit.RelativeDb(a, h)), Math.Max(LowestDb, take.Kit.RelativeDb(b, h)));
            (sumA, sumB, squareA, squareB, product) = (sumA + x, sumB + y, squareA + (x * x), squareB + (y * y), product + (x * y));
        }

        var size = Math.Sqrt(Math.Max(0, (squareA * count) - (sumA * sumA))) * Math.Sqrt(Math.Max(0, (squareB * count) - (sumB * sumB)));
        return size > 0 ? ((product * count) - (sumA * sumB)) / size : 0;
    }
}
