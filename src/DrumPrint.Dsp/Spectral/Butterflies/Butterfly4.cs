using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>Four points.</summary>
internal static class Butterfly4
{
    /// <summary>Transforms groups of legs into rows <paramref name="size"/> apart, until all rows are done.</summary>
    public static void Pass<T, TLegs, TTarget>(TLegs legs, TTarget target, nint size, nint rows)
        where T : struct, ILane<T>
        where TLegs : struct, ILegs, allows ref struct
        where TTarget : struct, IStripTarget, allows ref struct
    {
        for (nint j = 0; j < size; j++)
        {
            for (var row = j; row < rows; row += 4 * size)
            {
                legs.Point(row, j);
                for (nint column = 0; column < Strip.Width; column += T.Width)
                {
                    legs.Load<T>(0, column, out var ar, out var ai);
                    legs.Load<T>(1, column, out var br, out var bi);
                    legs.Load<T>(2, column, out var cr, out var ci);
                    legs.Load<T>(3, column, out var dr, out var di);
                    var (pr, pi, qr, qi) = (ar + cr, ai + ci, ar - cr, ai - ci);
                    var (ur, ui, vr, vi) = (br + dr, bi + di, br - dr, bi - di);
                    target.Store(row, column, pr + ur, pi + ui);
                    target.Store(row + size, column, qr + vi, qi - vr);
                    target.Store(row + (2 * size), column, pr - ur, pi - ui);
                    target.Store(row + (3 * size), column, qr - vi, qi + vr);
                }
            }
        }
    }
}
