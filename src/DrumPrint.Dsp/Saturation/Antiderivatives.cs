using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Saturation;

/// <param name="First">A function's integral from 0.</param>
/// <param name="Second">The integral of that.</param>
internal readonly record struct Antiderivatives<T>(T First, T Second)
    where T : struct, ILaneBits<T>;
