namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Counts what code allocates once it has settled.</summary>
internal static class Allocations
{
    private const int Passes = 4;

    /// <summary>Bytes of the leanest of a few passes. The runtime may allocate once for a path first taken or compiled anew; code
    /// that allocates does so on every pass.</summary>
    public static long Of(Action action)
    {
        var least = long.MaxValue;
        for (var pass = 0; pass < Passes; pass++)
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            action();
            least = Math.Min(least, GC.GetAllocatedBytesForCurrentThread() - before);
        }

        return least;
    }
}
