using System.Runtime.CompilerServices;

namespace DrumPrint.Dsp.Resampling;

/// <summary>Eight running sums, each of every eighth product, added up in one fixed order: the same bits for every lane width.</summary>
[InlineArray(Count)]
internal struct EightSums
{
    public const int Count = 8;

    private double _first;

    public readonly double Total =>
        (_first + this[4] + (this[2] + this[6])) + (this[1] + this[5] + (this[3] + this[7]));
}
