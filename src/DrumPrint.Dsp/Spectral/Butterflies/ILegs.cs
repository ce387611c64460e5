using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>The inputs of one butterfly.</summary>
internal interface ILegs
{
    /// <summary>Turns to the butterfly that starts at a row of the strip, number <paramref name="j"/> of its block.</summary>
    void Point(nint row, nint j);

    /// <summary>Brings in leg number <paramref name="leg"/>, from 0, turned as it has to be.</summary>
    void Load<T>(int leg, nint column, out T re, out T im)
        where T : struct, ILane<T>;
}
