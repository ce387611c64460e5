namespace DrumPrint.Dsp;

/// <summary>Keeps what processors work out from their settings alone, such as filters, so that the next one need not do it again.</summary>
/// <remarks>Whatever it gives is shared. Nobody may change it. One thread at a time may ask.</remarks>
/// <param name="most">How many designs are kept; the one that was asked for longest ago goes first.</param>
public class DesignMemory(int most = 128)
{
    private readonly Dictionary<object, LinkedListNode<(object Key, object Design)>> _known = [];
    private readonly LinkedList<(object Key, object Design)> _byUse = new();

    /// <summary>Gives a design, made now or before.</summary>
    /// <param name="key">All that the design hangs on, to be compared by value.</param>
    /// <param name="make">Makes it.</param>
    /// <typeparam name="T">What it is; one key stands for one type.</typeparam>
    public virtual T Of<T>(object key, Func<T> make)
        where T : class
    {
        ArgumentNullException.ThrowIfNull(key);
        ArgumentNullException.ThrowIfNull(make);
        if (_known.TryGetValue(key, out var known))
        {
            _byUse.Remove(known);
            _byUse.AddFirst(known);
            return (T)known.Value.Design;
        }

        var design = make();
        _known.Add(key, _byUse.AddFirst((key, design)));
        if (_known.Count > most && _byUse.Last is { } oldest)
        {
            _known.Remove(oldest.Value.Key);
            _byUse.Remove(oldest);
        }

        return design;
    }
}
