namespace DrumPrint.Diff;

/// <summary>Lays two lists beside each other with the fewest things left over or changed.</summary>
internal static class SideBySide
{
    private const int Changed = 2;
    private const int LeftOver = 3;

    // A received chain may have rows of any length, and this takes time and memory for each pair of places.
    private const long MostPlaces = 1 << 22;

    /// <summary>Pairs in order; a side is null where the other has something of its own.</summary>
    /// <param name="a">One list.</param>
    /// <param name="b">The other.</param>
    /// <param name="areOfAKind">Whether two things may stand beside each other.</param>
    /// <param name="areSame">Whether they are the same.</param>
    public static IReadOnlyList<(T? A, T? B)> Of<T>(IReadOnlyList<T> a, IReadOnlyList<T> b, Func<T, T, bool> areOfAKind, Func<T, T, bool> areSame)
        where T : class
    {
        if ((long)a.Count * b.Count > MostPlaces)
        {
            return PlaceByPlace(a, b, areOfAKind);
        }

        // cost[i, j]: the least for the last i of one and the last j of the other (edit distance, Wagner and Fischer 1974).
        var cost = new int[a.Count + 1, b.Count + 1];
        int Beside(int i, int j) => !areOfAKind(a[^i], b[^j]) ? int.MaxValue / 2 : cost[i - 1, j - 1] + (areSame(a[^i], b[^j]) ? 0 : Changed);

        for (var i = 0; i <= a.Count; i++)
        {
            for (var j = 0; j <= b.Count; j++)
            {
                cost[i, j] = i == 0 || j == 0
                    ? (i + j) * LeftOver
                    : Math.Min(Beside(i, j), LeftOver + Math.Min(cost[i - 1, j], cost[i, j - 1]));
            }
        }

        var pairs = new List<(T?, T?)>();
        for (int i = a.Count, j = b.Count; i + j > 0;)
        {
            if (i > 0 && j > 0 && cost[i, j] == Beside(i, j))
            {
                pairs.Add((a[^i--], b[^j--]));
            }
            else if (i > 0 && cost[i, j] == cost[i - 1, j] + LeftOver)
            {
                pairs.Add((a[^i--], null));
            }
            else
            {
                pairs.Add((null, b[^j--]));
            }
        }

        return pairs;
    }

    private static List<(T? A, T? B)> PlaceByPlace<T>(IReadOnlyList<T> a, IReadOnlyList<T> b, Func<T, T, bool> areOfAKind)
        where T : class
    {
        var pairs = new List<(T?, T?)>();
        for (var i = 0; i < Math.Max(a.Count, b.Count); i++)
        {
            var (one, other) = (i < a.Count ? a[i] : null, i < b.Count ? b[i] : null);
            if (one is null || other is null || areOfAKind(one, other))
            {
                pairs.Add((one, other));
            }
            else
            {
                pairs.Add((one, null));
                pairs.Add((null, other));
            }
        }

        return pairs;
    }
}
