using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Demo.Synthesis;

/// <summary>Independent noise streams drawn from one.</summary>
internal static class Streams
{
    public static CounterNoise Of(CounterNoise noise, int stream) => new(noise.Bits(-1 - stream));
}
