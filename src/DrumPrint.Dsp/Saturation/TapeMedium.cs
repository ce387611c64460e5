using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
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

    // What is planned for each sample, the curve and the step: a row of each in turn for every phase.
    private const int Kinds = 2;

    private readonly HysteresisPlan _planner;
    private readonly double[] _plan;
    private readonly HysteresisLanes[] _memory;
    private readonly FirstOrderLanes[] _straightener;
    private int _untilFlush = FirstOrder.FlushFrames;

    /// <param name="rate">Samples per second of the raised signal.</param>
    /// <param name="channels">Channels, each with a memory of its own.</param>
    public TapeMedium(double rate, int channels)
    {
        _planner = new HysteresisPlan(Memory(rate));
        _plan = new double[MostPhases * Kinds * PartFrames * channels];
        _memory = new HysteresisLanes[(channels + 1) / 2];
        _straightener = new FirstOrderLanes[_memory.Length];
        Array.Fill(_memory, new HysteresisLanes(Memory(rate)));
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
            for (var pair = 0; pair < _memory.Length; pair++)
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
    }

    private void Turn(PhaseBuffer fields, int frame, int frames)
    {
        var channels = fields.Channels;
        var first = fields.Start(0) + (frame * channels);
        var (planner, row, end) = (_planner, (nuint)(PartFrames * channels), (nuint)(frames * channels));
        for (var phase = 0; phase < fields.Phases; phase++)
        {
            // The sample before the first row's is the last row's of the frame before.
            ref var field = ref fields.Samples[first + (phase * fields.Stride)];
            ref var before = ref fields.Samples[first + (phase > 0 ? (phase - 1) * fields.Stride : ((fields.Phases - 1) * fields.Stride) - channels)];
            ref var plan = ref _plan[phase * Kinds * (int)row];
            var greatest = Vector<double>.Zero;
            for (nuint n = 0; n < end; n += (nuint)Vector<double>.Count)
            {
                var x = Vector.LoadUnsafe(ref field, n);
                Langevin.Near(x, out var top, out var bottom);
                planner.Prepare(x - Vector.LoadUnsafe(ref before, n), top, bottom, out var curve, out var step);
                curve.StoreUnsafe(ref plan, n);
                step.StoreUnsafe(ref plan, row + n);
                greatest = Vector.MaxNative(greatest, Vector.Abs(x));
            }

            if (!Langevin.IsNear(greatest))
            {
                TurnFar(ref field, ref before, ref plan, row, end);
            }
        }
    }

    // Once more where some lane's field is far.
    private void TurnFar(ref double field, ref double before, ref double plan, nuint row, nuint end)
    {
        for (nuint n = 0; n < end; n += (nuint)Vector<double>.Count)
        {
            var x = Vector.LoadUnsafe(ref field, n);
            if (!Langevin.IsNear(x))
            {
                Langevin.Fraction(x, out var top, out var bottom);
                _planner.Prepare(x - Vector.LoadUnsafe(ref before, n), top, bottom, out var curve, out var step);
                curve.StoreUnsafe(ref plan, n);
                step.StoreUnsafe(ref plan, row + n);
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
        ref var curve = ref _plan[0];
        ref var step = ref _plan[row];
        var memory = _memory[pair];
        var straightener = _straightener[pair];
        var untilFlush = _untilFlush;
        for (var n = 0; n < frames; n++)
        {
            var i = (n * channels) + (2 * pair);
            var o = output.Start(0) + (frame * channels) + i;
            for (var phase = 0; phase < phases; phase++)
            {
                var bent = memory.Next(TLanes.Load(ref Unsafe.Add(ref curve, i)), TLanes.Load(ref Unsafe.Add(ref step, i)));
                TLanes.Store(straightener.Next(bent), ref Unsafe.Add(ref results, o));
                i += Kinds * row;
                o += stride;
            }

            if (--untilFlush == 0)
            {
                untilFlush = FirstOrder.FlushFrames;
                memory.Flush();
                straightener.Flush();
            }
        }

        _memory[pair] = memory;
        _straightener[pair] = straightener;
    }
}
