using System.Runtime.InteropServices;
using SharpFuzz.Common;

namespace DrumPrint.Fuzz.Driver;

/// <summary>Which steps from place to place of the instrumented code a run took, and about how often; empty where nothing is instrumented.</summary>
internal sealed unsafe class CoverageMap : IDisposable
{
    private const int Places = 1 << 16;

    private readonly byte* _map = (byte*)NativeMemory.AllocZeroed(Places);
    private readonly byte[] _known = new byte[Places];

    public CoverageMap() => Trace.SharedMem = _map;

    /// <summary>Steps that any run took.</summary>
    public int Steps { get; private set; }

    public void Begin()
    {
        new Span<byte>(_map, Places).Clear();
        Trace.PrevLocation = 0;
    }

    /// <summary>Takes down a run.</summary>
    /// <returns>Whether it took a step that none took before, or took one more often by a power of two.</returns>
    public bool Take()
    {
        var isNew = false;
        var map = new Span<byte>(_map, Places);
        for (int at = 0, next; at < Places && (next = map[at..].IndexOfAnyExcept((byte)0)) >= 0; at++)
        {
            at += next;
            var often = Often(map[at]);
            if ((_known[at] & often) == 0)
            {
                Steps += _known[at] == 0 ? 1 : 0;
                _known[at] |= often;
                isNew = true;
            }
        }

        return isNew;
    }

    public void Dispose()
    {
        // The instrumented code may still be running on a thread of the pool, so the block stays.
        GC.SuppressFinalize(this);
    }

    // A bit for each of 1, 2, 3, 4 to 7, 8 to 15, 16 to 31, 32 to 127 and more.
    private static byte Often(byte count) => count switch
    {
        1 => 1,
        2 => 2,
        3 => 4,
        < 8 => 8,
        < 16 => 16,
        < 32 => 32,
        < 128 => 64,
        _ => 128,
    };
}
