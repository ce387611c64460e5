using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>Two points.</summary>
internal static class Butterfly2
{
    /// <summary>Transforms groups of legs into rows <paramref name="size"/> apart, until all rows are done.</summary>
    public static void Pass<T, TLegs, TTarget>(TLegs legs, TTarget target, nint size, nint rows)
        where T : struct, ILane<T>
        where TLegs : struct, ILegs, allows ref struct
        where TTarget : struct, IStripTarget, allows ref struct
    {
        for (nint j = 0; j < size; j++)
        {
            for (var row = j; row < rows; row += 2 * size)
            {
                legs.Point(row, j);
                for (nint column = 0; column < Strip.Width; column += T.Width)
                {
                    legs.Load<T>(0, column, out var ar, out var ai);
                    legs.Load<T>(1, column, out var br, out var bi);
                    target.Store(row, column, ar + br, ai + bi);
                    target.Store(row + size, column, ar - br, ai - bi);
                }
            }
        }
    }
}
