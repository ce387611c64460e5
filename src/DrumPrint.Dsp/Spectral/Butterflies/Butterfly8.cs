using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>Eight points: four odd and four even ones, the odd ones turned by 0, 45, 90 and 135 degrees before they meet.</summary>
internal static class Butterfly8
{
    /// <summary>Transforms groups of legs into rows <paramref name="size"/> apart, until all rows are done.</summary>
    public static void Pass<T, TLegs, TTarget>(TLegs legs, TTarget target, nint size, nint rows)
        where T : struct, ILane<T>
        where TLegs : struct, ILegs, allows ref struct
        where TTarget : struct, IStripTarget, allows ref struct
    {
        for (nint j = 0; j < size; j++)
        {
            for (var row = j; row < rows; row += 8 * size)
            {
                legs.Point(row, j);
                for (nint column = 0; column < Strip.Width; column += T.Width)
                {
                    var root = T.Of(0.7071067811865476);
                    legs.Load<T>(1, column, out var ar, out var ai);
                    legs.Load<T>(3, column, out var br, out var bi);
                    legs.Load<T>(5, column, out var cr, out var ci);
                    legs.Load<T>(7, column, out var dr, out var di);
                    var (pr, pi, qr, qi) = (ar + cr, ai + ci, ar - cr, ai - ci);
                    var (ur, ui, vr, vi) = (br + dr, bi + di, br - dr, bi - di);
                    var (odd0r, odd0i) = (pr + ur, pi + ui);
                    var (odd2r, odd2i) = (pi - ui, ur - pr);
                    var (fr, fi, gr, gi) = (qr + vi, qi - vr, qr - vi, qi + vr);
                    var (odd1r, odd1i) = ((fr + fi) * root, (fi - fr) * root);
                    var (odd3r, odd3i) = ((gi - gr) * root, (gr + gi) * root);

                    legs.Load(0, column, out ar, out ai);
                    legs.Load(2, column, out br, out bi);
                    legs.Load(4, column, out cr, out ci);
                    legs.Load(6, column, out dr, out di);
                    (pr, pi, qr, qi) = (ar + cr, ai + ci, ar - cr, ai - ci);
                    (ur, ui, vr, vi) = (br + dr, bi + di, br - dr, bi - di);
                    var (even0r, even0i, even2r, even2i) = (pr + ur, pi + ui, pr - ur, pi - ui);
                    target.Store(row, column, even0r + odd0r, even0i + odd0i);
                    target.Store(row + (4 * size), column, even0r - odd0r, even0i - odd0i);
                    target.Store(row + (2 * size), column, even2r + odd2r, even2i + odd2i);
                    target.Store(row + (6 * size), column, even2r - odd2r, even2i - odd2i);
                    var (even1r, even1i, even3r, even3i) = (qr + vi, qi - vr, qr - vi, qi + vr);
                    target.Store(row + size, column, even1r + odd1r, even1i + odd1i);
                    target.Store(row + (5 * size), column, even1r - odd1r, even1i - odd1i);
                    target.Store(row + (3 * size), column, even3r + odd3r, even3i - odd3i);
                    target.Store(row + (7 * size), column, even3r - odd3r, even3i + odd3i);
                }
            }
        }
    }
}
