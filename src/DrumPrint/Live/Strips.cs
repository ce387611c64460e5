using System.Collections.Concurrent;

namespace DrumPrint.Live;

/// <summary>What the faders beside the prints are set to. They start at unity, those of extras down; they are heard here only.</summary>
internal sealed class Strips
{
    private readonly ConcurrentDictionary<int, double> _gains = new();

    /// <summary>The linear gain of a print.</summary>
    public double Of(int number, bool isOptional) => _gains.GetValueOrDefault(number, isOptional ? 0 : 1);

    /// <summary>Sets the linear gain of a print, from the next block on.</summary>
    public void Set(int number, double gain) => _gains[number] = gain;
}
