namespace DrumPrint.Seeking;

/// <summary>Looks for the step of a grid at which a rising function crosses zero, a few steps at a time.</summary>
/// <remarks>Regula falsi on whole steps: what comes next depends on the values alone, so the same values find the same step on every machine.
/// Each round narrows the stretch in which the crossing lies, so the search ends.</remarks>
/// <param name="lowest">First step.</param>
/// <param name="highest">Last step.</param>
/// <param name="rise">How much the function rises from step to step, about.</param>
/// <param name="tolerance">How near to zero is near enough.</param>
internal sealed class GridSearch(int lowest, int highest, double rise, double tolerance)
{
    private const int LeastStride = 10;
    private const int WideStretch = 8;

    private readonly SortedDictionary<int, double> _known = [];

    /// <summary>The step whose value is nearest to zero.</summary>
    public int Best => _known.MinBy(k => Math.Abs(k.Value)).Key;

    /// <summary>Whether the function gets to zero within the grid.</summary>
    public bool IsFound => _known.Values.Any(v => Math.Abs(v) <= tolerance) || Crossing() is not null;

    /// <summary>Takes down the value of a step.</summary>
    public void Put(int step, double value) => _known[step] = value;

    /// <summary>The steps to look at next; none when it is over.</summary>
    public IReadOnlyList<int> Next()
    {
        if (_known.Values.Any(v => Math.Abs(v) <= tolerance))
        {
            return [];
        }

        IEnumerable<int> steps = Crossing() is { } crossing ? Within(crossing.Low, crossing.High) : Beyond();
        return [.. steps.Where(s => !_known.ContainsKey(s)).Distinct().Order()];
    }

    private IEnumerable<int> Within(int low, int high)
    {
        if (high - low <= 1)
        {
            yield break;
        }

        var (from, to) = (_known[low], _known[high]);
        var middle = Math.Clamp(low + (int)Math.Round((high - low) * (-from / (to - from)), MidpointRounding.AwayFromZero), low + 1, high - 1);
        for (var step = Math.Max(low + 1, middle - 1); step <= Math.Min(high - 1, middle + 1); step++)
        {
            yield return step;
        }

        if (high - low > WideStretch)
        {
            yield return low + ((high - low) / 2);
        }
    }

    private IEnumerable<int> Beyond()
    {
        var isBelow = _known.Values.First() < 0;
        var last = isBelow ? _known.Last() : _known.First();
        var stride = Math.Max(1, (int)Math.Min(highest - lowest, Math.Ceiling(Math.Abs(last.Value) / rise))) * (isBelow ? 1 : -1);
        yield return Math.Clamp(last.Key + stride, lowest, highest);
        yield return Math.Clamp(last.Key + stride + (Math.Sign(stride) * Math.Max(LeastStride, Math.Abs(stride) / 2)), lowest, highest);
    }

    private (int Low, int High)? Crossing()
    {
        var steps = _known.Keys.ToList();
        for (var i = 1; i < steps.Count; i++)
        {
            if (_known[steps[i - 1]] < 0 && _known[steps[i]] >= 0)
            {
                return (steps[i - 1], steps[i]);
            }
        }

        return null;
    }
}
