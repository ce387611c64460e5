using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>Five points.</summary>
internal static class Butterfly5
{
    /// <summary>Transforms groups of legs into rows <paramref name="size"/> apart, until all rows are done.</summary>
    public static void Pass<T, TLegs, TTarget>(TLegs legs, TTarget target, nint size, nint rows)
        where T : struct, ILane<T>
        where TLegs : struct, ILegs, allows ref struct
        where TTarget : struct, IStripTarget, allows ref struct
    {
        for (nint j = 0; j < size; j++)
        {
            for (var row = j; row < rows; row += 5 * size)
            {
                legs.Point(row, j);
                for (nint column = 0; column < Strip.Width; column += T.Width)
                {
                    var c1 = T.Of(0.30901699437494745);  // cos 72°
                    var c2 = T.Of(-0.8090169943749475);  // cos 144°
                    var s1 = T.Of(0.9510565162951535);   // sin 72°
                    var s2 = T.Of(0.5877852522924731);   // sin 144°
                    legs.Load<T>(0, column, out var ar, out var ai);
                    legs.Load<T>(1, column, out var br, out var bi);
                    legs.Load<T>(2, column, out var cr, out var ci);
                    legs.Load<T>(3, column, out var dr, out var di);
                    legs.Load<T>(4, column, out var er, out var ei);
                    var (pr, pi, qr, qi) = (br + er, bi + ei, br - er, bi - ei);
                    var (ur, ui, vr, vi) = (cr + dr, ci + di, cr - dr, ci - di);
                    var (mr, mi) = (ar + ((pr * c1) + (ur * c2)), ai + ((pi * c1) + (ui * c2)));
                    var (nr, ni) = (ar + ((pr * c2) + (ur * c1)), ai + ((pi * c2) + (ui * c1)));
                    var (xr, xi) = ((qr * s1) + (vr * s2), (qi * s1) + (vi * s2));
                    var (yr, yi) = ((qr * s2) - (vr * s1), (qi * s2) - (vi * s1));
                    target.Store(row, column, ar + (pr + ur), ai + (pi + ui));
                    target.Store(row + size, column, mr + xi, mi - xr);
                    target.Store(row + (2 * size), column, nr + yi, ni - yr);
                    target.Store(row + (3 * size), column, nr - yi, ni + yr);
                    target.Store(row + (4 * size), column, mr - xi, mi + xr);
                }
            }
        }
    }
}
