using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Saturation;

/// <summary>Record treble, medium and playback treble, in units of the medium's field.</summary>
internal sealed class TapeStage : IOversampledStage
{
    private readonly TapeMedium _medium;
    private readonly Channels _trebleIn;
    private readonly Channels _trebleOut;
    private readonly Channels _straightener;

    public TapeStage(TapeEqualization equalization, TapeLag lag, int sampleRate, int oversampling, int channels)
    {
        var trebleOut = equalization.TrebleOut(sampleRate);
        _medium = new TapeMedium((double)sampleRate * oversampling, oversampling, channels);
        _trebleIn = new Channels(trebleOut.Inverse(), channels);
        _trebleOut = new Channels(trebleOut, channels);
        _straightener = new Channels(lag.Straightener, channels);
    }

    public void Before(PhaseBuffer doubled, int frames) => _trebleIn.Run(doubled, frames);

    public void Bend(PhaseBuffer input, PhaseBuffer output, int frames) => _medium.Bend(input, output, frames);

    public void After(PhaseBuffer doubled, int frames)
    {
        _straightener.Run(doubled, frames);
        _trebleOut.Run(doubled, frames);
    }

    // One filter for every channel of a signal at twice the frame rate; two channels go through together.
    private sealed class Channels(FirstOrder filter, int channels)
    {
        private readonly double[] _states = new double[channels];
        private int _untilFlush = FirstOrder.FlushFrames;

        public void Run(PhaseBuffer doubled, int frames)
        {
            var left = _untilFlush;
            var channel = 0;
            for (; channel + 1 < doubled.Channels; channel += 2)
            {
                left = _untilFlush;
                Run<Lane2>(ref left, doubled, frames, channel);
            }

            if (channel < doubled.Channels)
            {
                left = _untilFlush;
                Run<Lane1>(ref left, doubled, frames, channel);
            }

            _untilFlush = left;
        }

        private void Run<T>(ref int untilFlush, PhaseBuffer doubled, int frames, int channel)
            where T : struct, ILaneBits<T>
        {
            var local = new FirstOrderLanes<T>(filter, T.Load(in _states[channel]));
            var left = untilFlush;
            ref var even = ref MemoryMarshal.GetReference(doubled.Row(0, frames)[channel..]);
            ref var odd = ref MemoryMarshal.GetReference(doubled.Row(1, frames)[channel..]);
            var end = frames * doubled.Channels;
            for (var n = 0; n < end; n += doubled.Channels)
            {
                local.Next(T.Load(in Unsafe.Add(ref even, n))).Store(ref Unsafe.Add(ref even, n));
                local.Next(T.Load(in Unsafe.Add(ref odd, n))).Store(ref Unsafe.Add(ref odd, n));
                if (--left == 0)
                {
                    left = FirstOrder.FlushFrames;
                    local.Flush();
                }
            }

            local.State.Store(ref _states[channel]);
            untilFlush = left;
        }
    }
}
