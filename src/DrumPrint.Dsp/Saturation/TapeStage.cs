using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Saturation;

/// <summary>Record treble, medium and playback treble, in units of the medium's field.</summary>
internal sealed class TapeStage : IOversampledStage
{
    private readonly TapeMedium _medium;
    private readonly FirstOrderLanes[] _trebleIn;
    private readonly FirstOrderLanes[] _trebleOut;
    private int _untilFlushIn = FirstOrder.FlushFrames;
    private int _untilFlushOut = FirstOrder.FlushFrames;

    public TapeStage(TapeEqualization equalization, int sampleRate, int oversampling, int channels)
    {
        var trebleOut = equalization.TrebleOut(sampleRate);
        _medium = new TapeMedium((double)sampleRate * oversampling, channels);
        _trebleIn = new FirstOrderLanes[(channels + 1) / 2];
        _trebleOut = new FirstOrderLanes[_trebleIn.Length];
        Array.Fill(_trebleIn, new FirstOrderLanes(trebleOut.Inverse()));
        Array.Fill(_trebleOut, new FirstOrderLanes(trebleOut));
    }

    public void Before(PhaseBuffer doubled, int frames) => Run(_trebleIn, ref _untilFlushIn, doubled, frames);

    public void Bend(PhaseBuffer input, PhaseBuffer output, int frames) => _medium.Bend(input, output, frames);

    public void After(PhaseBuffer doubled, int frames) => Run(_trebleOut, ref _untilFlushOut, doubled, frames);

    private static void Run(FirstOrderLanes[] filters, ref int untilFlush, PhaseBuffer doubled, int frames)
    {
        var left = untilFlush;
        for (var pair = 0; pair < filters.Length; pair++)
        {
            left = untilFlush;
            if ((2 * pair) + 1 < doubled.Channels)
            {
                Run<TwoLanes>(ref filters[pair], ref left, doubled, frames, 2 * pair);
            }
            else
            {
                Run<OneLane>(ref filters[pair], ref left, doubled, frames, 2 * pair);
            }
        }

        untilFlush = left;
    }

    private static void Run<TLanes>(ref FirstOrderLanes filter, ref int untilFlush, PhaseBuffer doubled, int frames, int channel)
        where TLanes : ILanes
    {
        var local = filter;
        var left = untilFlush;
        ref var even = ref MemoryMarshal.GetReference(doubled.Row(0, frames)[channel..]);
        ref var odd = ref MemoryMarshal.GetReference(doubled.Row(1, frames)[channel..]);
        var end = frames * doubled.Channels;
        for (var n = 0; n < end; n += doubled.Channels)
        {
            TLanes.Store(local.Next(TLanes.Load(ref Unsafe.Add(ref even, n))), ref Unsafe.Add(ref even, n));
            TLanes.Store(local.Next(TLanes.Load(ref Unsafe.Add(ref odd, n))), ref Unsafe.Add(ref odd, n));
            if (--left == 0)
            {
                left = FirstOrder.FlushFrames;
                local.Flush();
            }
        }

        filter = local;
        untilFlush = left;
    }
}
