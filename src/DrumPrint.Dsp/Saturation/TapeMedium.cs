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

    // Frames prepared at a time: whole vectors of any width, and few enough to stay close at hand.
    private const int PartFrames = 16;

    // What is planned for each sample: the curve and what Hysteresis.Prepare makes of it, a row of each in turn for every phase.
    private const int Kinds = 6;

    private readonly Hysteresis _memory;
    private readonly PhaseBuffer _lastCurve;
    private readonly double[] _plan;
    private readonly Vector128<double>[] _gap;
    private readonly FirstOrderLanes[] _straightener;
    private int _untilFlush = FirstOrder.FlushFrames;

    /// <param name="rate">Samples per second of the raised signal.</param>
    /// <param name="channels">Channels, each with a memory of its own.</param>
    public TapeMedium(double rate, int channels)
    {
        _memory = Memory(rate);
        _lastCurve = new PhaseBuffer(1, 1, channels);
        _plan = new double[MostPhases * Kinds * PartFrames * channels];
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
        // First what does not depend on the memory, then sample after sample what does.
        for (var frame = 0; frame < frames; frame += PartFrames)
        {
            var count = Math.Min(PartFrames, frames - frame);
            Turn(fields, frame, count);
            Prepare(fields, frame, count);
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

    // The anhysteretic curve.
    private void Turn(PhaseBuffer fields, int frame, int frames)
    {
        var samples = frames * fields.Channels;
        for (var phase = 0; phase < fields.Phases; phase++)
        {
            ref var field = ref fields.Samples[fields.Start(phase) + (frame * fields.Channels)];
            ref var curve = ref _plan[phase * Kinds * PartFrames * fields.Channels];
            var greatest = Vector<double>.Zero;
            for (nuint n = 0; n < (nuint)samples; n += (nuint)Vector<double>.Count)
            {
                var x = Vector.LoadUnsafe(ref field, n);
                Langevin.Near(x).StoreUnsafe(ref curve, n);
                greatest = Vector.MaxNative(greatest, Vector.Abs(x));
            }

            for (nuint n = 0; n < (nuint)samples && !Langevin.IsNear(greatest); n += (nuint)Vector<double>.Count)
            {
                Langevin.Of(Vector.LoadUnsafe(ref field, n)).StoreUnsafe(ref curve, n);
            }
        }
    }

    // What of the memory depends on the field alone.
    private void Prepare(PhaseBuffer fields, int frame, int frames)
    {
        var (channels, stride) = (fields.Channels, fields.Stride);
        var row = PartFrames * channels;
        var step = (nuint)(Kinds * row);
        var end = (nuint)(fields.Phases - 1) * step;
        ref var firstField = ref fields.Samples[fields.Start(0) + (frame * channels)];
        ref var lastField = ref fields.Samples[fields.Start(fields.Phases - 1) + ((frame - 1) * channels)];
        ref var lastCurve = ref _lastCurve.Samples[_lastCurve.Start(0) + (frame * channels)];
        ref var curves = ref _plan[0];
        ref var weights = ref _plan[row];
        ref var keeps = ref _plan[2 * row];
        ref var ons = ref _plan[3 * row];
        ref var offKeeps = ref _plan[4 * row];
        ref var offs = ref _plan[5 * row];
        var plan = new HysteresisPlan(_memory);
        for (var n = 0; n < frames * channels; n += Vector<double>.Count)
        {
            Vector.LoadUnsafe(ref curves, end + (nuint)n).StoreUnsafe(ref Unsafe.Add(ref lastCurve, n));
        }

        for (var n = 0; n < frames * channels; n += Vector<double>.Count)
        {
            // The sample before the first row's is the last row's of the frame before.
            var curveBefore = Vector.LoadUnsafe(ref Unsafe.Add(ref lastCurve, n - channels));
            var fieldBefore = Vector.LoadUnsafe(ref Unsafe.Add(ref lastField, n));
            var directionBefore = HysteresisPlan.Direction(fieldBefore - Vector.LoadUnsafe(ref Unsafe.Add(ref lastField, n - stride)));
            ref var fieldNow = ref Unsafe.Add(ref firstField, n);
            for (var i = (nuint)n; i <= end + (nuint)n; i += step)
            {
                var field = Vector.LoadUnsafe(ref fieldNow);
                var curve = Vector.LoadUnsafe(ref curves, i);
                var direction = HysteresisPlan.Direction(field - fieldBefore);
                plan.Prepare(field - fieldBefore, curve - curveBefore, directionBefore, direction, out var keep, out var on, out var offKeep, out var off, out var weight);
                weight.StoreUnsafe(ref weights, i);
                keep.StoreUnsafe(ref keeps, i);
                on.StoreUnsafe(ref ons, i);
                offKeep.StoreUnsafe(ref offKeeps, i);
                off.StoreUnsafe(ref offs, i);
                (fieldBefore, curveBefore, directionBefore) = (field, curve, direction);
                fieldNow = ref Unsafe.Add(ref fieldNow, stride);
            }
        }
    }

    private void Follow<TLanes>(PhaseBuffer output, int frame, int frames, int pair)
        where TLanes : ILanes
    {
        ref var results = ref MemoryMarshal.GetArrayDataReference(output.Samples);
        var channels = output.Channels;
        var (phases, stride) = (output.Phases, output.Stride);
        var row = PartFrames * channels;
        var step = Kinds * row;
        ref var curve = ref _plan[0];
        ref var weight = ref _plan[row];
        ref var keep = ref _plan[2 * row];
        ref var on = ref _plan[3 * row];
        ref var offKeep = ref _plan[4 * row];
        ref var off = ref _plan[5 * row];
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
                i += step;
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
