using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Saturation;

/// <summary>The magnetic medium of the tape processor: its curve and its memory.</summary>
/// <remarks>
/// <para>Pinning and reversibility are those of a published model of γ-ferric oxide tape without bias (k 27 kA/m,
/// a 22 kA/m, c 0.17; DAFx-19, from memory). The bias loosens the rest within 5 µs, half a period of 100 kHz.</para>
/// <para>What comes out is not the magnetisation at a sample but its mean under a triangle that reaches one step either way:
/// antiderivative antialiasing of the second order (Parker, Zavalishin and Le Bivic, DAFx-16), for the memory too, whose own equation gives
/// the means.</para>
/// </remarks>
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

    // Past this the medium is full to the sixth digit.
    private const double MostField = 1048576;

    // What is planned for each sample, a row of each in turn for every phase.
    private const int Tilt = 1;
    private const int FastLeft = 2;
    private const int SlowLeft = 3;
    private const int FastRate = 4;
    private const int SlowRate = 5;
    private const int FastTarget = 6;
    private const int SlowTarget = 7;
    private const int Kinds = 8;

    // Keeps the way's curvature, which counts to first order, from leading far astray where it is beyond all measure.
    private const double MostBulge = 4;

    private readonly Hysteresis _memory;
    private readonly double[] _plan;
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
        _plan = new double[MostPhases * Kinds * PartFrames * channels];
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

        // Of a step, as seen from its middle: the field's mean, with what the way strays from even, and its tilt; then the gap where the step
        // begins, which is (1 − step)/(1 − left·step) of the mean but for what the tilt has closed of it.
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
        for (var frame = 0; frame < frames; frame += PartFrames)
        {
            var count = Math.Min(PartFrames, frames - frame);
            Plan<T>(fields, frame, count);
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

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static bool IsNear<T>(T field)
        where T : struct, ILaneBits<T> => T.AllWithin(field, -Langevin.NearEnd, Langevin.NearEnd);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Look<T>(ref T field, out T top, out T bottom)
        where T : struct, ILaneBits<T>
    {
        if (IsNear(field))
        {
            Langevin.Near(field, out top, out bottom);
        }
        else
        {
            // Through copies: what is handed over by reference would otherwise have to stay in memory all along.
            var far = field;
            LookFar(ref far, out var farTop, out var farBottom);
            (field, top, bottom) = (far, farTop, farBottom);
        }
    }

    [MethodImpl(MethodImplOptions.NoInlining | MethodImplOptions.AggressiveOptimization)]
    private static void LookFar<T>(ref T field, out T top, out T bottom)
        where T : struct, ILaneBits<T>
    {
        field = T.Greater(T.Lesser(field, MostField), -MostField);
        Langevin.Fraction(in field, out top, out bottom);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Plan<T>(PhaseBuffer fields, int frame, int frames)
        where T : struct, ILaneBits<T>
    {
        var channels = fields.Channels;
        var (row, phases, stride) = (PartFrames * channels, fields.Phases, fields.Stride);
        var (perField, shake) = ((T)_memory.PerField, (T)_memory.Shake);
        T signs = T.FromBits(long.MinValue);
        var slow = (T)1 / Hysteresis.Closing(shake);
        ref var samples = ref fields.Samples[fields.Start(0) + (frame * channels)];
        for (var n = 0; n < frames * channels; n += T.Count)
        {
            // The three samples before the first row's; the last two begin the first way.
            var before = T.Load(in Unsafe.Add(ref samples, Earlier(3, phases, stride, channels) + n));
            var a = T.Load(in Unsafe.Add(ref samples, Earlier(2, phases, stride, channels) + n));
            var b = T.Load(in Unsafe.Add(ref samples, Earlier(1, phases, stride, channels) + n));
            Look(ref before, out _, out _);
            Look(ref a, out var topA, out var bottomA);
            Look(ref b, out var top, out var bottom);
            var ratio = topA / bottomA;
            var curveA = a * ratio;
            var slopeA = LangevinWay.Slope(curveA, ratio);
            var d = b - a;
            var bentA = d - (a - before);
            Unsafe.SkipInit(out Antiderivatives<T> atA);
            var isKnown = false;
            ref var plan = ref _plan[n];
            var i = n;
            for (var phase = 0; phase < phases; phase++)
            {
                var c = T.Load(in Unsafe.Add(ref samples, i));
                Look(ref c, out var topC, out var bottomC);
                var after = c - b;
                var bentB = after - d;
                var bulge = T.Greater(T.Lesser((bentA + bentB) * -0.25, MostBulge), -MostBulge);

                // Where the field turns on the way, it moves a little against its direction too.
                var (size, swing) = (Langevin.Size(d), Langevin.Size(bulge));
                var over = T.Greater(swing - size, 0);
                var (slowRate, slowLeft) = (shake, slow);
                if (!T.AllWithin(over, 0, 0))
                {
                    var against = over * over / T.Greater(swing * 4, FirstOrder.Negligible);
                    size += against;
                    slowRate = T.Fma(against, perField, shake);
                    slowLeft = (T)1 / Hysteresis.Closing(slowRate);
                }

                // One division for the curve and the closing of the gap.
                var rate = T.Fma(size, perField, shake);
                var closing = Hysteresis.Closing(rate);
                var both = (T)1 / (bottom * closing);
                var left = bottom * both;
                ratio = top * (closing * both);
                var curveB = b * ratio;
                var slopeB = LangevinWay.Slope(curveB, ratio);
                LangevinWay.OfShort(d, bulge, curveA, curveB, slopeA, slopeB, out var mean, out var tilt);
                if (T.AllWithin(d, -LangevinWay.Short, LangevinWay.Short))
                {
                    isKnown = false;
                }
                else
                {
                    var (from, to, strays, longMean, longTilt) = (a, b, bulge, mean, tilt);
                    if (!isKnown)
                    {
                        Langevin.Integrate(in from, out atA);
                    }

                    Langevin.Integrate(in to, out var atB);
                    LangevinWay.OfLong(in from, in to, in strays, in atA, in atB, ref longMean, ref longTilt);
                    (mean, tilt, atA, isKnown) = (longMean, longTilt, atB, true);
                }

                Hysteresis.Target(rate, left, mean, tilt).Store(ref Unsafe.Add(ref plan, FastTarget * row));
                Hysteresis.Target(slowRate, slowLeft, mean, tilt).Store(ref Unsafe.Add(ref plan, SlowTarget * row));
                mean.Store(ref plan);
                tilt.Store(ref Unsafe.Add(ref plan, Tilt * row));
                T.OrBits(left, T.AndBits(d, signs)).Store(ref Unsafe.Add(ref plan, FastLeft * row));
                slowLeft.Store(ref Unsafe.Add(ref plan, SlowLeft * row));
                rate.Store(ref Unsafe.Add(ref plan, FastRate * row));
                slowRate.Store(ref Unsafe.Add(ref plan, SlowRate * row));
                plan = ref Unsafe.Add(ref plan, Kinds * row);
                i += stride;
                (a, curveA, slopeA, b, d, top, bottom, bentA) = (b, curveB, slopeB, c, after, topC, bottomC, bentB);
            }
        }
    }

    // Where sample −k lies: in row phases − k of the frame before, or of one further back.
    private static int Earlier(int k, int phases, int stride, int channels) =>
        k <= phases ? ((phases - k) * stride) - channels : (((2 * phases) - k) * stride) - (2 * channels);

    // The gap closes faster while it points the way the field moves. Seen in that direction, closing faster leads to the greater
    // of two outcomes exactly while the gap is positive: the choice is a comparison of outcomes.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Follow<T>(int frames, int channel)
        where T : struct, ILaneBits<T>
    {
        var channels = _follows.Channels;
        var row = PartFrames * channels;
        var (phases, stride) = (_follows.Phases, _follows.Stride);
        ref var results = ref _follows.Samples[_follows.Start(0)];
        T signs = T.FromBits(long.MinValue);
        var kept = T.Load(in _kept[channel]);
        var last = T.Load(in _direction[channel]);
        var untilFlush = _untilFlush;
        for (var n = 0; n < frames; n++)
        {
            var o = (n * channels) + channel;
            ref var plan = ref _plan[o];
            for (var phase = 0; phase < phases; phase++)
            {
                var left = T.Load(in Unsafe.Add(ref plan, FastLeft * row));
                var direction = T.AndBits(left, signs);
                left = T.XorBits(left, direction);
                var from = T.XorBits(kept, T.XorBits(direction, last));
                var fast = T.Fma(left, from, T.XorBits(T.Load(in Unsafe.Add(ref plan, FastTarget * row)), direction));
                left = T.Load(in Unsafe.Add(ref plan, SlowLeft * row));
                kept = T.Greater(fast, T.Fma(left, from, T.XorBits(T.Load(in Unsafe.Add(ref plan, SlowTarget * row)), direction)));
                T.XorBits(kept, direction).Store(ref Unsafe.Add(ref results, o));
                last = direction;
                plan = ref Unsafe.Add(ref plan, Kinds * row);
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
        var (row, phases, stride) = (PartFrames * channels, output.Phases, _follows.Stride);
        var start = output.Start(0) + (frame * channels);
        ref var results = ref output.Samples[start];
        ref var follows = ref _follows.Samples[_follows.Start(0)];
        ref var ahead = ref _ahead.Samples[_ahead.Start(0)];
        T signs = T.FromBits(long.MinValue);
        T weight = _memory.Irreversible;
        for (var n = 0; n < frames * channels; n += T.Count)
        {
            ref var plan = ref _plan[n];
            var from = T.Load(in Unsafe.Add(ref follows, ((phases - 1) * stride) - channels + n));
            T carried = 0;
            var (i, o) = (n, n);
            for (var phase = 0; phase < phases; phase++)
            {
                var mean = T.Load(in plan);
                var gap = mean - from;
                var left = T.Load(in Unsafe.Add(ref plan, FastLeft * row));
                var direction = T.AndBits(left, signs);

                // The slower outcome once more: less than what came, it was not taken.
                var to = T.Load(in Unsafe.Add(ref follows, i));
                var slowLeft = T.Load(in Unsafe.Add(ref plan, SlowLeft * row));
                var slow = T.Fma(slowLeft, from, T.Load(in Unsafe.Add(ref plan, SlowTarget * row)));
                (slow, var came) = (T.XorBits(slow, direction), T.XorBits(to, direction));
                left = T.WhereLess(slow, came, T.XorBits(left, direction), slowLeft);
                var rate = T.WhereLess(slow, came, T.Load(in Unsafe.Add(ref plan, FastRate * row)), T.Load(in Unsafe.Add(ref plan, SlowRate * row)));
                gap *= weight;
                var tilt = T.Load(in Unsafe.Add(ref plan, Tilt * row));
                var late = Hysteresis.OfLate(rate, left) * tilt * weight;
                var half = T.Fma(-rate, late, T.Fma(-Hysteresis.OfMean(rate, left), gap, mean)) * 0.5;
                tilt += T.Fma(Hysteresis.OfTilt(rate, left), gap, -T.Fma(rate * 0.5, late, late));
                (carried + (half - tilt)).Store(ref Unsafe.Add(ref results, o));
                carried = half + tilt;
                from = to;
                plan = ref Unsafe.Add(ref plan, Kinds * row);
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
