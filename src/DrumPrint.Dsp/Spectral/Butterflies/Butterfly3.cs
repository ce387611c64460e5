using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>Three points.</summary>
internal static class Butterfly3
{
    /// <summary>Transforms groups of legs into rows <paramref name="size"/> apart, until all rows are done.</summary>
    public static void Pass<T, TLegs, TTarget>(TLegs legs, TTarget target, nint size, nint rows)
        where T : struct, ILane<T>
        where TLegs : struct, ILegs, allows ref struct
        where TTarget : struct, IStripTarget, allows ref struct
    {
        for (nint j = 0; j < size; j++)
        {
            for (var row = j; row < rows; row += 3 * size)
            {
                legs.Point(row, j);
                for (nint column = 0; column < Strip.Width; column += T.Width)
                {
                    var half = T.Of(0.5);
                    var sin = T.Of(0.8660254037844387); // sin 60°
                    legs.Load<T>(0, column, out var ar, out var ai);
                    legs.Load<T>(1, column, out var br, out var bi);
                    legs.Load<T>(2, column, out var cr, out var ci);
                    var (sr, si) = (br + cr, bi + ci);
                    var (dr, di) = ((br - cr) * sin, (bi - ci) * sin);
                    var (mr, mi) = (ar - (sr * half), ai - (si * half));
                    target.Store(row, column, ar + sr, ai + si);
                    target.Store(row + size, column, mr + di, mi - dr);
                    target.Store(row + (2 * size), column, mr - di, mi + dr);
                }
            }
        }
    }
}
