namespace DrumPrint.Dsp.Dynamics;

/// <summary>The largest of the last values, at a cost that does not depend on how many they are.</summary>
/// <remarks>Only values that a later one does not top can still become the largest; they are kept in order, falling
/// (D. Lemire, "Streaming maximum-minimum filter using no more than three comparisons per element", 2006).</remarks>
/// <param name="length">How many values count, the newest among them.</param>
internal sealed class RunningMaximum(int length)
{
    private readonly double[] _values = new double[length];
    private readonly long[] _places = new long[length];
    private int _first;
    private int _count;
    private long _place;

    /// <summary>Replaces each value by the largest up to it.</summary>
    public void Follow(Span<double> values)
    {
        foreach (ref var value in values)
        {
            value = Next(value);
        }
    }

    /// <summary>The largest up to the next value.</summary>
    public double Next(double value)
    {
        if (_count > 0 && _places[_first] <= _place - length)
        {
            _first = _first + 1 == length ? 0 : _first + 1;
            _count--;
        }

        var next = Wrapped(_first + _count);
        while (_count > 0)
        {
            var last = next == 0 ? length - 1 : next - 1;
            if (_values[last] > value)
            {
                break;
            }

            next = last;
            _count--;
        }

        (_values[next], _places[next]) = (value, _place++);
        _count++;
        return _values[_first];
    }

    private int Wrapped(int index) => index >= length ? index - length : index;
}
