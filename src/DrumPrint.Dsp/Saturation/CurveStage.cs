using System.Runtime.CompilerServices;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Oversampling;

namespace DrumPrint.Dsp.Saturation;

/// <summary>Bends a signal by a curve around a working point; silence stays silence. <see cref="GainIn"/> before it drives the signal,
/// <see cref="GainOut"/> after it gives small signals their level back.</summary>
/// <remarks>
/// <para>Antiderivative antialiasing of the third order (Parker, Zavalishin and Le Bivic, DAFx-16). What comes out is the curve's
/// mean under the quadratic B-spline. The spline reaches over three steps. It falls to nothing threefold at every multiple of the
/// rate. The method takes the first three moments of the curve over each step, which the antiderivatives give.</para>
/// <para>With straight lines between the samples, as published, their corners would fold more than that saves. Our own addition:
/// the way is the cubic through four samples. Its distance from the straight line counts by the curve's slope, to first
/// order.</para>
/// </remarks>
internal sealed class CurveStage<TCurve> : IOversampledStage
    where TCurve : struct, ICurve
{
    /// <summary>Delay in samples of the full rate.</summary>
    public const double Delay = 2.5;

    // A wave within full scale never bends by more from one step to the next. A much louder one does, but not where the curve has
    // a slope. Otherwise first order would lead it far astray.
    private const double MostBent = 4;

    private readonly double _bias;
    private readonly double _rest;
    private readonly PhaseBuffer _ahead;

    /// <param name="drive">Gain into the curve.</param>
    /// <param name="bias">Working point, −1 to 1.</param>
    /// <param name="channels">Channels, side by side.</param>
    public CurveStage(double drive, double bias, int channels)
    {
        GainIn = drive / TCurve.Knee;
        _bias = bias / TCurve.Knee;
        var share = TCurve.Share<Lane1>(_bias);
        TCurve.Way<Lane1>(_bias, share, _bias, share, 0, out var rest, out _, out _);
        _rest = rest.Value;
        _ahead = new PhaseBuffer(2, 1, channels);
        GainOut = TCurve.Knee / TCurve.Slope(bias);
    }

    /// <summary>Gain to give the signal before its rate is raised.</summary>
    public double GainIn { get; }

    /// <summary>Gain that gives small signals their level back.</summary>
    public double GainOut { get; }

    /// <summary>Gain of the stage to a small signal, before <see cref="GainOut"/>, at a frequency as a part of the full rate.</summary>
    public static double GainAt(double freq)
    {
        var half = Elementary.Cos(Math.PI * freq);
        var bulge = (half - Elementary.Cos(3 * Math.PI * freq)) / 2;
        var (sin, cos) = Elementary.SinCos(2 * Math.PI * freq);
        return (2 * half / 3) + (bulge / 8) + (cos * ((half / 3) + (bulge / 24))) + (sin * Elementary.Sin(Math.PI * freq) / 6);
    }

    public void Bend(PhaseBuffer input, PhaseBuffer output, int frames)
    {
        if (Lane8.IsFast)
        {
            Bend<Lane8>(input, output, frames);
        }
        else if (Lane4.IsFast)
        {
            Bend<Lane4>(input, output, frames);
        }
        else if (Lane2.IsFast)
        {
            Bend<Lane2>(input, output, frames);
        }
        else
        {
            Bend<Lane1>(input, output, frames);
        }
    }

    /// <summary>The same bits with any lanes; with <see cref="Lane1"/> it is the definition.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    internal void Bend<T>(PhaseBuffer input, PhaseBuffer output, int frames)
        where T : struct, ILaneBits<T>
    {
        var (bias, rest) = ((T)_bias, (T)_rest);
        ref var samples = ref input.Samples[0];
        ref var results = ref output.Samples[output.Start(0)];
        ref var ahead = ref _ahead.Samples[_ahead.Start(0)];
        var (phases, stride) = (input.Phases, input.Stride);
        for (var n = 0; n < frames * input.Channels; n += T.Count)
        {
            // The three samples before the first row's.
            var before = Before(-3) + bias;
            var a = Before(-2) + bias;
            var b = Before(-1) + bias;
            var d = b - a;
            var bentA = Held(d - (a - before));
            var (shareA, shareB) = (TCurve.Share(a), TCurve.Share(b));
            var i = input.Start(0) + n;
            var o = n;

            // What the steps so far add to the results still to come.
            T next = 0, last = 0;
            for (var phase = 0; phase < phases; phase++)
            {
                var c = T.Load(in Unsafe.Add(ref samples, i)) + bias;
                var shareC = TCurve.Share(c);
                var after = c - b;
                var bentB = Held(after - d);
                TCurve.Way(a, shareA, b, shareB, d, out var mean, out var slope, out var bend);

                // The way strays from its chord by (¼ − s²)(−(bentA + bentB)/4 + s(bentA − bentB)/6).
                var bulge = bentA + bentB;
                var turn = bentA - bentB;
                mean -= rest;
                var stray = T.Fma(turn, bend, -(bulge * slope));
                var side = T.Fma(stray, 0.125, T.Fma(d, bend, mean * (1.0 / 6)));
                var tilt = T.Fma(d, slope, -(bulge * (bend * 0.75)));

                // The spline's three pieces: (½ + s)²/2 rising, ¾ − s² in the middle, (½ − s)²/2 falling.
                ((next + side) - tilt).Store(ref Unsafe.Add(ref results, o));
                next = last + T.Fma(side, -2, mean + stray);
                last = side + tilt;
                (a, b, d, shareA, shareB, bentA) = (b, c, after, shareB, shareC, bentB);
                i += stride;
                o += output.Stride;
            }

            next.Store(ref Unsafe.Add(ref ahead, n));
            last.Store(ref Unsafe.Add(ref ahead, n + _ahead.Stride));

            T Before(int sample)
            {
                // Sample −k is in row phases − k of the frame before, or of one further back.
                var (row, back) = (sample + phases, 1);
                if (row < 0)
                {
                    (row, back) = (row + phases, 2);
                }

                return T.Load(in Unsafe.Add(ref input.Samples[0], input.Start(row) - (back * input.Channels) + n));
            }
        }

        // The first two results of each frame wait for the frame before.
        for (var phase = 0; phase < 2; phase++)
        {
            ref var earlier = ref _ahead.Samples[_ahead.Start(phase) - input.Channels];
            ref var late = ref output.Samples[output.Start(phase)];
            for (var n = 0; n < frames * input.Channels; n += T.Count)
            {
                var sum = T.Load(in Unsafe.Add(ref late, n)) + T.Load(in Unsafe.Add(ref earlier, n));
                sum.Store(ref Unsafe.Add(ref late, n));
            }
        }

        _ahead.Advance(frames);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static T Held<T>(T bent)
        where T : struct, ILaneBits<T> => T.Greater(T.Lesser(bent, MostBent), -MostBent);
}
