using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Tests.Alignment.Truth;

/// <summary>Random figures in order, the same on every run and machine.</summary>
internal sealed class TruthRandom(string name)
{
    private const int DrawsOfGauss = 12;

    private readonly CounterNoise _noise = CounterNoise.FromName(name);
    private long _next;

    /// <summary>A number from one up to another, all alike.</summary>
    public double Between(double low, double high) => low + ((high - low) * _noise.Unit(_next++));

    /// <summary>A whole number from 0 up to but not including a count.</summary>
    public int Below(int count) => (int)Between(0, count);

    /// <summary>Whether something of a given chance happens.</summary>
    public bool Chance(double part) => Between(0, 1) < part;

    /// <summary>A normal number of mean 0 and deviation 1, nearly: the sum of twelve even ones less six.</summary>
    public double Gauss()
    {
        var sum = 0.0;
        for (var i = 0; i < DrawsOfGauss; i++)
        {
            sum += Between(-0.5, 0.5);
        }

        return sum;
    }
}
