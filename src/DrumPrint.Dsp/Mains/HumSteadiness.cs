namespace DrumPrint.Dsp.Mains;

/// <summary>Asks whether what stretches have in common is there all the time, as hum is.</summary>
/// <remarks>Hits that come every so many periods of the mains ring in step, and what they have in common looks like hum. But a ring dies
/// away. So only stretches count whose drums are quiet enough to show hum of that level, and hum is as loud in all of them. By loudness
/// alone, since the phase of a high harmonic wanders with the mains.</remarks>
/// <param name="looks">How many stretches count at most.</param>
internal sealed class HumSteadiness(int looks)
{
    // How many times as much power as the drums hum must have in a stretch to be judged there, and in how many of all stretches.
    private const double Shown = 4;
    private const double Few = 0.1;
    private const int Least = 2;

    // The quieter and the louder fifth may be what they like.
    private const double Apart = 0.2;

    // How much of what the drums may add or take away is allowed for, in standard deviations.
    private const double Allowed = 0.5;

    // The quieter ones against the louder ones: up to here it is a ring, from there on hum.
    private const double Ring = 0.8;
    private const double Hum = 0.88;

    private readonly double[] _lowest = new double[looks];
    private readonly double[] _highest = new double[looks];
    private int _count;

    /// <summary>Forgets all stretches.</summary>
    public void Clear() => _count = 0;

    /// <summary>Adds a stretch.</summary>
    /// <param name="level">Its level at the harmonic over that of the hum.</param>
    /// <param name="shown">The hum's power over that of the drums.</param>
    public void Add(double level, double shown)
    {
        if (shown > Shown)
        {
            var doubt = Allowed / Math.Sqrt(2 * shown);
            (_lowest[_count], _highest[_count]) = (level + doubt, level - doubt);
            _count++;
        }
    }

    /// <summary>How far it is hum: 0 for a ring, 1 for hum.</summary>
    /// <param name="stretches">How many there are, with those that show nothing.</param>
    public double Part(int stretches)
    {
        if (_count < Math.Max(Least, Few * stretches))
        {
            return 0;
        }

        var aside = (int)(Apart * _count);
        _lowest.AsSpan(0, _count).Sort();
        _highest.AsSpan(0, _count).Sort();
        var steady = _lowest[aside] / Math.Max(1, _highest[_count - 1 - aside]);
        return steady > Ring ? Math.Min(1, (steady - Ring) / (Hum - Ring)) : 0;
    }
}
