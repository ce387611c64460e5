using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Saturation;

/// <summary>The magnetic medium of the tape processor, one channel: its curve, its memory and what undoes its lag for small signals.</summary>
/// <remarks>Pinning and reversibility are those of a published model of γ-ferric oxide tape without bias (k 27 kA/m,
/// a 22 kA/m, c 0.17; DAFx-19, from memory). The bias loosens the rest within 5 µs, half a period of 100 kHz.</remarks>
internal sealed class TapeMedium
{
    /// <summary>Slope of the magnetisation at zero field.</summary>
    public const double SmallSignalGain = 1.0 / 3.0;

    private const double Pinning = 27.0 / 22.0;
    private const double Reversible = 0.17;
    private const double ShakeSeconds = 5e-6;
    private const int MostPhases = 16;

    private readonly Hysteresis _memory;
    private readonly PhaseBuffer _lastCurve = new(1, 1);
    private readonly double[] _curve = new double[MostPhases * Vector<double>.Count];
    private readonly double[] _keep = new double[MostPhases * Vector<double>.Count];
    private readonly double[] _on = new double[MostPhases * Vector<double>.Count];
    private readonly double[] _off = new double[MostPhases * Vector<double>.Count];
    private readonly double[] _falling = new double[MostPhases * Vector<double>.Count];
    private FirstOrder _straightener;
    private double _gap;

    /// <param name="rate">Samples per second of the raised signal.</param>
    public TapeMedium(double rate)
    {
        _memory = Memory(rate);
        _straightener = Straightener(rate);
    }

    /// <summary>The medium's memory for a rate.</summary>
    public static Hysteresis Memory(double rate) => new(Pinning, Reversible, 1 / (ShakeSeconds * rate));

    /// <summary>What undoes the medium's lag for small signals, exactly.</summary>
    /// <remarks>With the field near rest, the gap of <see cref="Hysteresis"/> is g(1 − z⁻¹)/(1 − pz⁻¹) of the curve.</remarks>
    public static FirstOrder Straightener(double rate)
    {
        var half = 0.5 / (ShakeSeconds * rate);
        var keep = (1 - half) / (1 + half);
        var lag = (1 - Reversible) / (1 + half);
        return new FirstOrder(1 / (1 - lag), -keep / (1 - lag), (lag - keep) / (1 - lag));
    }

    /// <summary>Turns fields into magnetisations.</summary>
    public void Bend(PhaseBuffer fields, PhaseBuffer output, int frames)
    {
        // As many frames at a time as a vector has lanes: first what does not depend on the memory, then sample after sample what does.
        for (var frame = 0; frame < frames; frame += Vector<double>.Count)
        {
            Prepare(fields, frame);
            Follow(output, frame, Math.Min(Vector<double>.Count, frames - frame));
        }

        _lastCurve.Advance(frames);
    }

    private void Prepare(PhaseBuffer fields, int frame)
    {
        // The sample before the first row's is the last row's of the frame before.
        ref var lastField = ref fields.Samples[fields.Start(fields.Phases - 1) + frame];
        ref var lastCurve = ref _lastCurve.Samples[_lastCurve.Start(0) + frame];
        Langevin.Of(Vector.LoadUnsafe(ref lastField)).StoreUnsafe(ref lastCurve);
        var fieldBefore = Vector.LoadUnsafe(ref Unsafe.Subtract(ref lastField, 1));
        var curveBefore = Vector.LoadUnsafe(ref Unsafe.Subtract(ref lastCurve, 1));
        for (var phase = 0; phase < fields.Phases; phase++)
        {
            var i = (nuint)(phase * Vector<double>.Count);
            var field = Vector.LoadUnsafe(ref fields.Samples[fields.Start(phase) + frame]);
            var curve = Langevin.Of(field);
            _memory.Prepare(field - fieldBefore, curve - curveBefore, out var keep, out var on, out var off, out var falling);
            curve.StoreUnsafe(ref MemoryMarshal.GetArrayDataReference(_curve), i);
            keep.StoreUnsafe(ref MemoryMarshal.GetArrayDataReference(_keep), i);
            on.StoreUnsafe(ref MemoryMarshal.GetArrayDataReference(_on), i);
            off.StoreUnsafe(ref MemoryMarshal.GetArrayDataReference(_off), i);
            falling.StoreUnsafe(ref MemoryMarshal.GetArrayDataReference(_falling), i);
            (fieldBefore, curveBefore) = (field, curve);
        }
    }

    private void Follow(PhaseBuffer output, int frame, int frames)
    {
        var gap = _gap;
        var straightener = _straightener;
        for (var lane = 0; lane < frames; lane++)
        {
            var o = output.Start(0) + frame + lane;
            var i = lane;
            for (var phase = 0; phase < output.Phases; phase++)
            {
                gap = _memory.Close(gap, _keep[i], _on[i], _off[i], _falling[i]);
                output.Samples[o] = straightener.Next(_curve[i] - (_memory.Irreversible * gap));
                i += Vector<double>.Count;
                o += output.Stride;
            }

            gap = Math.Abs(gap) < Hysteresis.Negligible ? 0 : gap;
            straightener.Flush();
        }

        _gap = gap;
        _straightener = straightener;
    }
}
