using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral;

/// <summary>Where the last pass of a <see cref="StripFft"/> writes its complex numbers.</summary>
internal interface IStripTarget
{
    /// <summary>Writes neighbouring columns of one row.</summary>
    void Store<T>(nint row, nint column, T re, T im)
        where T : struct, ILane<T>;
}
