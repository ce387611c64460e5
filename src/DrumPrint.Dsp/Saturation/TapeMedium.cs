using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Saturation;

/// <summary>The magnetic medium of the tape processor: its curve, its memory and what undoes its lag for small signals.</summary>
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
    private readonly PhaseBuffer _lastCurve;
    private readonly double[] _curve;
    private readonly double[] _weight;
    private readonly double[] _keep;
    private readonly double[] _on;
    private readonly double[] _offKeep;
    private readonly double[] _off;
    private readonly Vector128<double>[] _gap;
    private readonly FirstOrderLanes[] _straightener;
    private int _untilFlush = FirstOrder.FlushFrames;

    /// <param name="rate">Samples per second of the raised signal.</param>
    /// <param name="channels">Channels, each with a memory of its own.</param>
    public TapeMedium(double rate, int channels)
    {
        var samples = MostPhases * Vector<double>.Count * channels;
        _memory = Memory(rate);
        _lastCurve = new PhaseBuffer(1, 1, channels);
        _curve = new double[samples];
        _weight = new double[samples];
        _keep = new double[samples];
        _on = new double[samples];
        _offKeep = new double[samples];
        _off = new double[samples];
        _gap = new Vector128<double>[(channels + 1) / 2];
        _straightener = new FirstOrderLanes[_gap.Length];
        Array.Fill(_straightener, new FirstOrderLanes(Straightener(rate)));
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
            for (var part = 0; part < fields.Channels; part++)
            {
                Prepare(fields, frame, part * Vector<double>.Count);
            }

            var count = Math.Min(Vector<double>.Count, frames - frame);
            for (var pair = 0; pair < _gap.Length; pair++)
            {
                if ((2 * pair) + 1 < fields.Channels)
                {
                    Follow<TwoLanes>(output, frame, count, pair);
                }
                else
                {
                    Follow<OneLane>(output, frame, count, pair);
                }
            }

            _untilFlush -= count;
            _untilFlush += _untilFlush <= 0 ? FirstOrder.FlushFrames : 0;
        }

        _lastCurve.Advance(frames);
    }

    private void Prepare(PhaseBuffer fields, int frame, int part)
    {
        // The sample before the first row's is the last row's of the frame before.
        var start = (frame * fields.Channels) + part;
        var last = fields.Phases - 1;
        ref var lastField = ref fields.Samples[fields.Start(last) + start];
        ref var lastCurve = ref _lastCurve.Samples[_lastCurve.Start(0) + start];
        var endCurve = Langevin.Of(Vector.LoadUnsafe(ref lastField));
        endCurve.StoreUnsafe(ref lastCurve);
        var fieldBefore = Vector.LoadUnsafe(ref Unsafe.Subtract(ref lastField, fields.Channels));
        var curveBefore = Vector.LoadUnsafe(ref Unsafe.Subtract(ref lastCurve, fields.Channels));
        var directionBefore = Hysteresis.Direction(fieldBefore - Vector.LoadUnsafe(ref fields.Samples[fields.Start(last - 1) + start - fields.Channels]));
        for (var phase = 0; phase <= last; phase++)
        {
            var i = (nuint)((phase * fields.Channels * Vector<double>.Count) + part);
            var field = Vector.LoadUnsafe(ref fields.Samples[fields.Start(phase) + start]);
            var curve = phase == last ? endCurve : Langevin.Of(field);
            var direction = Hysteresis.Direction(field - fieldBefore);
            _memory.Prepare(field - fieldBefore, curve - curveBefore, directionBefore, direction, out var keep, out var on, out var offKeep, out var off, out var weight);
            curve.StoreUnsafe(ref MemoryMarshal.GetArrayDataReference(_curve), i);
            weight.StoreUnsafe(ref MemoryMarshal.GetArrayDataReference(_weight), i);
            keep.StoreUnsafe(ref MemoryMarshal.GetArrayDataReference(_keep), i);
            on.StoreUnsafe(ref MemoryMarshal.GetArrayDataReference(_on), i);
            offKeep.StoreUnsafe(ref MemoryMarshal.GetArrayDataReference(_offKeep), i);
            off.StoreUnsafe(ref MemoryMarshal.GetArrayDataReference(_off), i);
            (fieldBefore, curveBefore, directionBefore) = (field, curve, direction);
        }
    }

    private void Follow<TLanes>(PhaseBuffer output, int frame, int frames, int pair)
        where TLanes : ILanes
    {
        ref var curve = ref MemoryMarshal.GetArrayDataReference(_curve);
        ref var weight = ref MemoryMarshal.GetArrayDataReference(_weight);
        ref var keep = ref MemoryMarshal.GetArrayDataReference(_keep);
        ref var on = ref MemoryMarshal.GetArrayDataReference(_on);
        ref var offKeep = ref MemoryMarshal.GetArrayDataReference(_offKeep);
        ref var off = ref MemoryMarshal.GetArrayDataReference(_off);
        ref var results = ref MemoryMarshal.GetArrayDataReference(output.Samples);
        var channels = output.Channels;
        var (phases, stride) = (output.Phases, output.Stride);
        var gap = _gap[pair];
        var straightener = _straightener[pair];
        var untilFlush = _untilFlush;
        for (var n = 0; n < frames; n++)
        {
            var i = (n * channels) + (2 * pair);
            var o = output.Start(0) + (frame * channels) + i;
            for (var phase = 0; phase < phases; phase++)
            {
                var faster = Vector128.FusedMultiplyAdd(TLanes.Load(ref Unsafe.Add(ref keep, i)), gap, TLanes.Load(ref Unsafe.Add(ref on, i)));
                var slower = Vector128.FusedMultiplyAdd(TLanes.Load(ref Unsafe.Add(ref offKeep, i)), gap, TLanes.Load(ref Unsafe.Add(ref off, i)));
                gap = Vector128.MinNative(faster, slower);
                var bent = Vector128.FusedMultiplyAdd(TLanes.Load(ref Unsafe.Add(ref weight, i)), gap, TLanes.Load(ref Unsafe.Add(ref curve, i)));
                TLanes.Store(straightener.Next(bent), ref Unsafe.Add(ref results, o));
                i += channels * Vector<double>.Count;
                o += stride;
            }

            if (--untilFlush == 0)
            {
                untilFlush = FirstOrder.FlushFrames;
                gap = FirstOrderLanes.Kept(gap);
                straightener.Flush();
            }
        }

        _gap[pair] = gap;
        _straightener[pair] = straightener;
    }
}
