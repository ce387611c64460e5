namespace DrumPrint.Language;

/// <summary>Finds the word that was meant.</summary>
internal static class Nearest
{
    // A start of a word that is shorter says too little.
    private const int LeastStart = 3;

    /// <summary>The word closest to a mistyped one. A slip of one letter comes first, then a word that begins with it, then a few
    /// slips. Null when none is close enough to be worth offering.</summary>
    public static string? Word(string given, IEnumerable<string> among)
    {
        var words = among.ToList();
        string? best = null;
        var bestDistance = int.MaxValue;
        foreach (var word in words)
        {
            var allowed = Math.Min(3, Math.Max(given.Length, word.Length) / 2);
            if (string.Equals(given.Trim(), word, StringComparison.OrdinalIgnoreCase))
            {
                return word;
            }

            if (Math.Abs(given.Length - word.Length) > allowed)
            {
                continue;
            }

            var distance = Distance(given.ToLowerInvariant(), word.ToLowerInvariant());
            if (distance <= allowed && distance < bestDistance)
            {
                (best, bestDistance) = (word, distance);
            }
        }

        var start = given.Trim();
        return bestDistance > 1 && start.Length >= LeastStart && words.FirstOrDefault(w => w.StartsWith(start, StringComparison.OrdinalIgnoreCase)) is { } longer ? longer : best;
    }

    /// <summary>How many letters must be put in, taken out, changed or swapped with their neighbour (optimal string
    /// alignment, after Damerau 1964 and Levenshtein 1966).</summary>
    public static int Distance(string a, string b)
    {
        var cost = new int[a.Length + 1, b.Length + 1];
        for (var i = 0; i <= a.Length; i++)
        {
            for (var j = 0; j <= b.Length; j++)
            {
                cost[i, j] = i == 0 || j == 0 ? i + j : Step(cost, a, b, i, j);
            }
        }

        return cost[a.Length, b.Length];
    }

    private static int Step(int[,] cost, string a, string b, int i, int j)
    {
        var change = cost[i - 1, j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
        var least = Math.Min(change, Math.Min(cost[i - 1, j], cost[i, j - 1]) + 1);
        var isSwap = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
        return isSwap ? Math.Min(least, cost[i - 2, j - 2] + 1) : least;
    }
}
