using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Spectral.Butterflies;
using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral;

/// <summary>Rows of which only the first column counts; the others are zero.</summary>
internal readonly ref struct FirstColumn<TSource>(TSource source) : IStripSource
    where TSource : struct, IStripSource, allows ref struct
{
    private readonly TSource _source = source;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Load<T>(nint row, nint column, out T re, out T im)
        where T : struct, ILane<T>
    {
        if (column > 0)
        {
            (re, im) = (T.Of(0), T.Of(0));
            return;
        }

        _source.Load(row, 0, out re, out im);
    }
}
