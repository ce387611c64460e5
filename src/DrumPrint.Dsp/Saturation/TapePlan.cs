using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Saturation;

/// <summary>What the tape's medium can reckon ahead for a stretch of fields, because it does not depend on its memory.</summary>
/// <remarks>Every phase has a row for each of these. First come the curve's mean on the way from the sample before, and its tilt.
/// Then come what is left of the gap, the rate, and where the memory would end. These three stand there for a gap that closes
/// fast and for one that closes slowly. The sign of what is left of a fast one is the field's direction.</remarks>
internal sealed class TapePlan(Hysteresis memory, int channels)
{
    /// <summary>Frames prepared at a time: whole vectors of any width, and few enough to stay close at hand.</summary>
    public const int PartFrames = 16;

    // Rows, after the one of the means.
    public const int Tilt = 1;
    public const int FastLeft = 2;
    public const int SlowLeft = 3;
    public const int FastRate = 4;
    public const int SlowRate = 5;
    public const int FastTarget = 6;
    public const int SlowTarget = 7;
    public const int Kinds = 8;

    private const int MostPhases = 16;

    // Past this the medium is full to the sixth digit.
    private const double MostField = 1048576;

    // Keeps the way's curvature, which counts to first order, from leading far astray where it is beyond all measure.
    private const double MostBulge = 4;

    /// <summary>The rows, frames and channels side by side in each.</summary>
    public double[] Rows { get; } = new double[MostPhases * Kinds * PartFrames * channels];

    /// <summary>Plans the frames of a stretch of fields from one of them on.</summary>
    /// <param name="fields">The stretch, and the two frames before.</param>
    /// <param name="frame">The first frame.</param>
    /// <param name="frames">How many, at most <see cref="PartFrames"/>.</param>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Make<T>(PhaseBuffer fields, int frame, int frames)
        where T : struct, ILaneBits<T>
    {
        var (row, phases, stride) = (PartFrames * channels, fields.Phases, fields.Stride);
        var (perField, shake) = ((T)memory.PerField, (T)memory.Shake);
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
            ref var plan = ref Rows[n];
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

    // Where sample −k lies: in row phases − k of the frame before, or of one further back.
    private static int Earlier(int k, int phases, int stride, int channels) =>
        k <= phases ? ((phases - k) * stride) - channels : (((2 * phases) - k) * stride) - (2 * channels);
}
