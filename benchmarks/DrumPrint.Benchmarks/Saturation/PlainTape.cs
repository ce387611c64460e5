using DrumPrint.Dsp.Saturation;

namespace DrumPrint.Benchmarks.Saturation;

/// <summary>The tape's medium sample after sample, with the runtime's functions.</summary>
internal sealed class PlainTape(double rate)
{
    private Hysteresis _memory = TapeMedium.Memory(rate);
    private FirstOrder _straightener = TapeMedium.Straightener(rate);

    public double Next(double field)
    {
        var curve = Math.Abs(field) < 1e-3 ? field / 3 : (1 / Math.Tanh(field)) - (1 / field);
        return _straightener.Next(_memory.Next(field, curve));
    }
}
