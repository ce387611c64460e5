using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Saturation;

/// <summary>The magnetic medium of the tape processor: its curve and its memory.</summary>
/// <remarks>
/// <para>A published model of γ-ferric oxide tape without bias gives pinning and reversibility (k 27 kA/m, a 22 kA/m, c
/// 0.17; DAFx-19, from memory). The bias loosens the rest within 5 µs, half a period of 100 kHz.</para>
/// <para>What comes out is not the magnetisation at a sample. It is the mean under a triangle that reaches one step either way.
/// This is antiderivative antialiasing of the second order (Parker, Zavalishin and Le Bivic, DAFx-16). It covers the memory too,
/// whose own equation gives the means.</para>
/// </remarks>
internal sealed class TapeMedium
{
    /// <summary>Slope of the magnetisation at zero field.</summary>
    public const double SmallSignalGain = 1.0 / 3.0;

    private const double Pinning = 27.0 / 22.0;
    private const double Reversible = 0.17;
    private const double ShakeSeconds = 5e-6;
    private readonly Hysteresis _memory;
    private readonly TapePlan _plan;
    private readonly double[] _kept;
    private readonly double[] _direction;
    private readonly PhaseBuffer _follows;
    private readonly PhaseBuffer _ahead;
    private int _untilFlush = FirstOrder.FlushFrames;

    /// <param name="rate">Samples per second of the raised signal.</param>
    /// <param name="phases">How many of them there are in a frame.</param>
    /// <param name="channels">Channels, each with a memory of its own.</param>
    public TapeMedium(double rate, int phases, int channels)
    {
        _memory = Memory(rate);
        _plan = new TapePlan(_memory, channels);
        _kept = new double[channels];
        _direction = new double[channels];
        _follows = new PhaseBuffer(phases, 1, channels);
        _ahead = new PhaseBuffer(1, 1, channels);
    }

    /// <summary>The medium's memory for a rate.</summary>
    public static Hysteresis Memory(double rate) => new(Pinning, Reversible, 1 / (ShakeSeconds * rate));

    /// <summary>What the medium does to a small signal, its slope and a delay of two samples taken out.</summary>
    /// <param name="freqHz">Frequency.</param>
    /// <param name="rate">Samples per second of the raised signal.</param>
    public static ComplexValue SmallSignal(double freqHz, double rate)
    {
        var memory = Memory(rate);
        Lane1 closing = memory.Shake;
        var left = (Lane1)1 / Hysteresis.Closing(closing);
        var late = Hysteresis.OfLate(closing, left).Value;
        var (sin, cos) = Elementary.SinCos(Math.PI * freqHz / rate);
        var step = new ComplexValue((cos * cos) - (sin * sin), -2 * sin * cos);

        // What is known of a step, seen from its middle: the field's mean, with what the way strays from even, and its tilt. Then
        // comes the gap where the step begins. It is (1 − step)/(1 − left·step) of the mean, but for what the tilt has closed of
        // it.
        ComplexValue mean = cos + ((cos - Elementary.Cos(3 * Math.PI * freqHz / rate)) / 12);
        var tilt = new ComplexValue(0, sin / 6);
        var gap = ((mean * (1 - step)) - (step * (late * memory.Shake * memory.Shake) * tilt)) / (1 - (left.Value * step));
        mean -= memory.Irreversible * ((Hysteresis.OfMean(closing, left).Value * gap) + (memory.Shake * late * tilt));
        tilt += memory.Irreversible * ((Hysteresis.OfTilt(closing, left).Value * gap) - ((1 + (memory.Shake / 2)) * late * tilt));
        return (mean * cos) - (tilt * new ComplexValue(0, 2 * sin));
    }

    /// <summary>Turns fields into magnetisations, two samples late.</summary>
    public void Bend(PhaseBuffer fields, PhaseBuffer output, int frames)
    {
        if (Lane8.IsFast)
        {
            Bend<Lane8>(fields, output, frames);
        }
        else if (Lane4.IsFast)
        {
            Bend<Lane4>(fields, output, frames);
        }
        else if (Lane2.IsFast)
        {
            Bend<Lane2>(fields, output, frames);
        }
        else
        {
            Bend<Lane1>(fields, output, frames);
        }
    }

    /// <summary>The same bits with any lanes; with <see cref="Lane1"/> it is the definition.</summary>
    internal void Bend<T>(PhaseBuffer fields, PhaseBuffer output, int frames)
        where T : struct, ILaneBits<T>
    {
        // First what does not depend on the memory, then sample after sample what does, then what comes of both.
        for (var frame = 0; frame < frames; frame += TapePlan.PartFrames)
        {
            var count = Math.Min(TapePlan.PartFrames, frames - frame);
            _plan.Make<T>(fields, frame, count);
            var channel = 0;
            for (; T.Count > 1 && channel + 1 < fields.Channels; channel += 2)
            {
                Follow<Lane2>(count, channel);
            }

            for (; channel < fields.Channels; channel++)
            {
                Follow<Lane1>(count, channel);
            }

            _untilFlush -= count;
            _untilFlush += _untilFlush <= 0 ? FirstOrder.FlushFrames : 0;
            Average<T>(output, frame, count);
            _follows.Advance(count);
            _ahead.Advance(count);
        }
    }

    // The gap closes faster while it points the way the field moves. Seen in that direction, closing faster leads to the greater
    // of two outcomes exactly while the gap is positive. So the choice is a comparison of outcomes.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Follow<T>(int frames, int channel)
        where T : struct, ILaneBits<T>
    {
        var channels = _follows.Channels;
        var row = TapePlan.PartFrames * channels;
        var (phases, stride) = (_follows.Phases, _follows.Stride);
        ref var results = ref _follows.Samples[_follows.Start(0)];
        T signs = T.FromBits(long.MinValue);
        var kept = T.Load(in _kept[channel]);
        var last = T.Load(in _direction[channel]);
        var untilFlush = _untilFlush;
        for (var n = 0; n < frames; n++)
        {
            var o = (n * channels) + channel;
            ref var plan = ref _plan.Rows[o];
            for (var phase = 0; phase < phases; phase++)
            {
                var left = T.Load(in Unsafe.Add(ref plan, TapePlan.FastLeft * row));
                var direction = T.AndBits(left, signs);
                left = T.XorBits(left, direction);
                var from = T.XorBits(kept, T.XorBits(direction, last));
                var fast = T.Fma(left, from, T.XorBits(T.Load(in Unsafe.Add(ref plan, TapePlan.FastTarget * row)), direction));
                left = T.Load(in Unsafe.Add(ref plan, TapePlan.SlowLeft * row));
                kept = T.Greater(fast, T.Fma(left, from, T.XorBits(T.Load(in Unsafe.Add(ref plan, TapePlan.SlowTarget * row)), direction)));
                T.XorBits(kept, direction).Store(ref Unsafe.Add(ref results, o));
                last = direction;
                plan = ref Unsafe.Add(ref plan, TapePlan.Kinds * row);
                o += stride;
            }

            if (--untilFlush == 0)
            {
                untilFlush = FirstOrder.FlushFrames;
                kept = FirstOrderLanes<T>.Kept(kept);
            }
        }

        kept.Store(ref _kept[channel]);
        last.Store(ref _direction[channel]);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Average<T>(PhaseBuffer output, int frame, int frames)
        where T : struct, ILaneBits<T>
    {
        var channels = output.Channels;
        var (row, phases, stride) = (TapePlan.PartFrames * channels, output.Phases, _follows.Stride);
        var start = output.Start(0) + (frame * channels);
        ref var results = ref output.Samples[start];
        ref var follows = ref _follows.Samples[_follows.Start(0)];
        ref var ahead = ref _ahead.Samples[_ahead.Start(0)];
        T signs = T.FromBits(long.MinValue);
        T weight = _memory.Irreversible;
        for (var n = 0; n < frames * channels; n += T.Count)
        {
            ref var plan = ref _plan.Rows[n];
            var from = T.Load(in Unsafe.Add(ref follows, ((phases - 1) * stride) - channels + n));
            T carried = 0;
            var (i, o) = (n, n);
            for (var phase = 0; phase < phases; phase++)
            {
                var mean = T.Load(in plan);
                var gap = mean - from;
                var left = T.Load(in Unsafe.Add(ref plan, TapePlan.FastLeft * row));
                var direction = T.AndBits(left, signs);

                // The slower outcome once more: less than what came, it was not taken.
                var to = T.Load(in Unsafe.Add(ref follows, i));
                var slowLeft = T.Load(in Unsafe.Add(ref plan, TapePlan.SlowLeft * row));
                var slow = T.Fma(slowLeft, from, T.Load(in Unsafe.Add(ref plan, TapePlan.SlowTarget * row)));
                (slow, var came) = (T.XorBits(slow, direction), T.XorBits(to, direction));
                left = T.WhereLess(slow, came, T.XorBits(left, direction), slowLeft);
                var rate = T.WhereLess(slow, came, T.Load(in Unsafe.Add(ref plan, TapePlan.FastRate * row)), T.Load(in Unsafe.Add(ref plan, TapePlan.SlowRate * row)));
                gap *= weight;
                var tilt = T.Load(in Unsafe.Add(ref plan, TapePlan.Tilt * row));
                var late = Hysteresis.OfLate(rate, left) * tilt * weight;
                var half = T.Fma(-rate, late, T.Fma(-Hysteresis.OfMean(rate, left), gap, mean)) * 0.5;
                tilt += T.Fma(Hysteresis.OfTilt(rate, left), gap, -T.Fma(rate * 0.5, late, late));
                (carried + (half - tilt)).Store(ref Unsafe.Add(ref results, o));
                carried = half + tilt;
                from = to;
                plan = ref Unsafe.Add(ref plan, TapePlan.Kinds * row);
                i += stride;
                o += output.Stride;
            }

            carried.Store(ref Unsafe.Add(ref ahead, n));
        }

        // The first result of each frame waits for the frame before.
        ref var earlier = ref _ahead.Samples[_ahead.Start(0) - channels];
        for (var n = 0; n < frames * channels; n += T.Count)
        {
            (T.Load(in Unsafe.Add(ref results, n)) + T.Load(in Unsafe.Add(ref earlier, n))).Store(ref Unsafe.Add(ref results, n));
        }
    }
}
