using DrumPrint.Dsp.Spectral.Lanes;

namespace DrumPrint.Dsp.Spectral.Butterflies;

/// <summary>One point, which is its own transform.</summary>
internal static class Butterfly1
{
    /// <summary>Transforms groups of legs into rows <paramref name="size"/> apart, until all rows are done.</summary>
    public static void Pass<T, TLegs, TTarget>(TLegs legs, TTarget target, nint size, nint rows)
        where T : struct, ILane<T>
        where TLegs : struct, ILegs, allows ref struct
        where TTarget : struct, IStripTarget, allows ref struct
    {
        for (nint j = 0; j < size; j++)
        {
            for (var row = j; row < rows; row += size)
            {
                legs.Point(row, j);
                for (nint column = 0; column < Strip.Width; column += T.Width)
                {
                    legs.Load<T>(0, column, out var re, out var im);
                    target.Store(row, column, re, im);
                }
            }
        }
    }
}
