using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Mixing;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Oversampling;
using DrumPrint.Dsp.WordLength;

namespace DrumPrint.Dsp.Tests.Numerics;

/// <summary>All kernels of the signal layer that are done in lanes.</summary>
internal static class LaneTrials
{
    public static readonly IReadOnlyDictionary<string, LaneTrial> All = new Dictionary<string, LaneTrial>
    {
        ["Scaling"] = LaneTrial.Of<ScalingWork>(),
        ["Beginning"] = LaneTrial.Of<BeginningWork>(),
        ["Adding"] = LaneTrial.Of<AddingWork>(),
        ["AddingProducts"] = LaneTrial.Of<AddingProductsWork>(),
        ["Exchanging"] = LaneTrial.Of<ExchangingWork>(),
        ["Peak"] = LaneTrial.Of<PeakWork>(),
        ["Raising"] = LaneTrial.Of<RaisingWork>(),
        ["Lowering"] = LaneTrial.Of<LoweringWork>(),
        ["Approaching"] = LaneTrial.Of<ApproachingWork>(),
        ["Mixing"] = LaneTrial.Of<MixingWork>(),
        ["AddingFused"] = LaneTrial.Of<AddingFusedWork>(),
        ["Multiplying"] = LaneTrial.Of<MultiplyingWork>(),
        ["FromStart"] = LaneTrial.Of<FromStartWork>(),
        ["FromEnd"] = LaneTrial.Of<FromEndWork>(),
        ["ToGain"] = LaneTrial.Of<ToGainWork>(),
        ["ToDecibels"] = LaneTrial.Of<ToDecibelsWork>(),
        ["Reducing"] = LaneTrial.Of<ReducingWork>(),
        ["Asking"] = LaneTrial.Of<AskingWork>(),
        ["Fast"] = LaneTrial.Of<FastWork>(),
        ["PeakBetween"] = LaneTrial.Of<PeakBetweenWork>(),
        ["Rounding"] = LaneTrial.Of<RoundingWork>(),
        ["Lowest"] = LaneTrial.Of<LowestWork>(x => double.IsNaN(x) ? 1 : x),
        ["NotFinite"] = LaneTrial.Of<NotFiniteWork>(),
        ["WindowSums"] = LaneTrial.Of<WindowSumsWork>(),
        ["HighestSum"] = LaneTrial.Of<HighestSumWork>(),
        ["TapFilter"] = LaneTrial.Of<TapFilterWork>(),
        ["Joining"] = LaneTrial.Of<JoiningWork>(),
    };

    private abstract class ScalingWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var x = a.ToArray();
            var kernel = new Blend.Scaling(b, 0.7, x);
            LaneTrial.Run<T, Blend.Scaling>(ref kernel);
            return x;
        }
    }

    private abstract class BeginningWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var x = a.ToArray();
            var kernel = new Blend.Beginning(b, -0.7, x);
            LaneTrial.Run<T, Blend.Beginning>(ref kernel);
            return x;
        }
    }

    private abstract class AddingWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var x = a.ToArray();
            var kernel = new Blend.Adding(b, 0.7, x);
            LaneTrial.Run<T, Blend.Adding>(ref kernel);
            return x;
        }
    }

    private abstract class AddingProductsWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var x = a.ToArray();
            var kernel = new Blend.AddingProducts(b, c, x);
            LaneTrial.Run<T, Blend.AddingProducts>(ref kernel);
            return x;
        }
    }

    private abstract class ExchangingWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            double[] x = [.. a], y = [.. b];
            var kernel = new Blend.Exchanging(x, y);
            LaneTrial.Run<T, Blend.Exchanging>(ref kernel);
            return [.. x, .. y];
        }
    }

    private abstract class PeakWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var kernel = new Blend.PeakSearch(a, 0.25);
            LaneTrial.Run<T, Blend.PeakSearch>(ref kernel);
            return [kernel.Peak];
        }
    }

    private abstract class RaisingWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var x = a.ToArray();
            var kernel = new StretchMath.Raising(x, b);
            LaneTrial.Run<T, StretchMath.Raising>(ref kernel);
            return x;
        }
    }

    private abstract class LoweringWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var x = a.ToArray();
            var kernel = new StretchMath.Lowering(x, b);
            LaneTrial.Run<T, StretchMath.Lowering>(ref kernel);
            return x;
        }
    }

    private abstract class ApproachingWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var x = a.ToArray();
            var kernel = new StretchMath.Approaching(x, b, 0.3);
            LaneTrial.Run<T, StretchMath.Approaching>(ref kernel);
            return x;
        }
    }

    private abstract class MixingWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var x = a.ToArray();
            var kernel = new StretchMath.Mixing(x, -0.3, 1.1);
            LaneTrial.Run<T, StretchMath.Mixing>(ref kernel);
            return x;
        }
    }

    private abstract class AddingFusedWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var x = a.ToArray();
            var kernel = new StretchMath.AddingFused(x, b, -0.3);
            LaneTrial.Run<T, StretchMath.AddingFused>(ref kernel);
            return x;
        }
    }

    private abstract class MultiplyingWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var x = a.ToArray();
            var kernel = new StretchMath.Multiplying(a, b, x);
            LaneTrial.Run<T, StretchMath.Multiplying>(ref kernel);
            return x;
        }
    }

    private abstract class FromStartWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            return [.. ((double[])[-2, -1, 0, 0.5, 0.9, 0.97, 2]).Select(limit => Index(limit))];

            double Index(double limit)
            {
                var kernel = new LevelScan.FromStart(a, limit);
                LaneTrial.Run<T, LevelScan.FromStart>(ref kernel);
                return kernel.Index;
            }
        }
    }

    private abstract class FromEndWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            return [.. ((double[])[-2, -1, 0, 0.5, 0.9, 0.97, 2]).Select(limit => Index(limit))];

            double Index(double limit)
            {
                var kernel = new LevelScan.FromEnd(a, limit);
                LaneTrial.Run<T, LevelScan.FromEnd>(ref kernel);
                return kernel.Index;
            }
        }
    }

    private abstract class ToGainWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var x = Array.ConvertAll(a, v => v * 40).ToArray();
            var kernel = new DecibelKernel.ToGain(x);
            LaneTrial.Run<T, DecibelKernel.ToGain>(ref kernel);
            return x;
        }
    }

    private abstract class ToDecibelsWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var x = Array.ConvertAll(a, Math.Abs).ToArray();
            var kernel = new DecibelKernel.ToDecibels(x, 6, 17);
            LaneTrial.Run<T, DecibelKernel.ToDecibels>(ref kernel);
            return x;
        }
    }

    private abstract class ReducingWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var x = Array.ConvertAll(a, v => v * 40).ToArray();
            var kernel = new GainComputer.Reducing(x, new GainComputer(-20, 4, 6));
            LaneTrial.Run<T, GainComputer.Reducing>(ref kernel);
            return x;
        }
    }

    private abstract class AskingWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var x = Array.ConvertAll(a, v => v * 40).ToArray();
            var kernel = new DownwardExpander.Asking(x, -10, 2, 30);
            LaneTrial.Run<T, DownwardExpander.Asking>(ref kernel);
            return x;
        }
    }

    private abstract class FastWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            double[] x = new double[a.Length], near = [.. a.Zip(b, (v, w) => v + (w * 1e-5))];
            var kernel = new GainSplit.Fast(near, a, x);
            LaneTrial.Run<T, GainSplit.Fast>(ref kernel);
            var none = new GainSplit.Fast(a, a, x.ToArray());
            LaneTrial.Run<T, GainSplit.Fast>(ref none);
            return [.. x, kernel.IsAny ? 1 : 0, none.IsAny ? 1 : 0];
        }
    }

    private abstract class PeakBetweenWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var x = a.ToArray();
            var kernel = new TrueLevel.PeakSearch(a, b, c, x);
            LaneTrial.Run<T, TrueLevel.PeakSearch>(ref kernel);
            return x;
        }
    }

    private abstract class RoundingWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var x = a.ToArray();
            var kernel = new Quantizer.Rounding(a, 128, 1.0 / 128, x);
            LaneTrial.Run<T, Quantizer.Rounding>(ref kernel);
            return x;
        }
    }

    private abstract class LowestWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var kernel = new GainCurve.LowestSearch(Array.ConvertAll(a, Math.Abs));
            LaneTrial.Run<T, GainCurve.LowestSearch>(ref kernel);
            return [kernel.Lowest];
        }
    }

    private abstract class NotFiniteWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var kernel = new NotFinite.Search(a);
            LaneTrial.Run<T, NotFinite.Search>(ref kernel);
            return [kernel.Index];
        }
    }

    private abstract class WindowSumsWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var x = new double[Math.Max(0, a.Length - 10)];
            var kernel = new WindowSums(x, a, 11);
            LaneTrial.Run<T, WindowSums>(ref kernel);
            return x;
        }
    }

    private abstract class HighestSumWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var kernel = new HighestSum((double[])[.. c.Take(6), .. Enumerable.Repeat(0.5, Math.Max(0, 6 - c.Length)), .. a], 6, [0.1, -0.4, 0.9, 0.6, -0.2, 0.05, 0.01]);
            LaneTrial.Run<T, HighestSum>(ref kernel);
            return [kernel.Highest];
        }
    }

    private abstract class TapFilterWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var x = a.ToArray();
            var kernel = new TapFilter.Sums((double[])[.. Enumerable.Repeat(0.5, 4), .. b], [0.1, -0.4, 0.9, 0.6, -0.2], x);
            LaneTrial.Run<T, TapFilter.Sums>(ref kernel);
            return x;
        }
    }

    private abstract class JoiningWork : ILaneWork
    {
        public static double[] Do<T>(double[] a, double[] b, double[] c)
            where T : struct, ILaneBits<T>
        {
            var parts = new PhaseBuffer(4, 3, 2);
            for (var i = 0; i < parts.Samples.Length; i++)
            {
                parts.Samples[i] = a.Length == 0 ? 0 : a[i % a.Length] * (i % 7);
            }

            var x = new double[a.Length];
            var kernel = new PhaseFilter.Joining(parts, x);
            LaneTrial.Run<T, PhaseFilter.Joining>(ref kernel);
            return x;
        }
    }
}
