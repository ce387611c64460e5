using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>Where the first pass of a row transform reads its complex numbers.</summary>
internal interface IStripSource
{
    /// <summary>Reads neighbouring columns of one row.</summary>
    void Load<T>(nint row, nint column, out T re, out T im)
        where T : struct, ILane<T>;
}
