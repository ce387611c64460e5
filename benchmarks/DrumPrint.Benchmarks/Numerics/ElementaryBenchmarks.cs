using BenchmarkDotNet.Attributes;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Benchmarks.Numerics;

/// <summary>
/// The functions that take spans: one value at a time, a span at a time, and as the runtime has it. The figures are for one
/// value; one at a time, each pays for a call through a delegate.
/// </summary>
[MinColumn]
public class ElementaryBenchmarks
{
    private const int Values = 4096;

    private readonly double[] _arguments = new double[Values];
    private readonly double[] _results = new double[Values];
    private readonly double[] _others = new double[Values];

    public enum Function
    {
        Exp,
        Log,
        Tanh,
        SinCos,
        ToGain,
        FromGain,
    }

    [ParamsAllValues]
    public Function Of { get; set; }

    [GlobalSetup]
    public void Fill()
    {
        var noise = new CounterNoise(1);
        var (low, high) = Of switch
        {
            Function.ToGain => (-60.0, 6.0),
            Function.Log or Function.FromGain => (1e-6, 1.2),
            _ => (-3.0, 3.0),
        };
        for (var i = 0; i < Values; i++)
        {
            _arguments[i] = low + ((high - low) * noise.Unit(i));
        }
    }

    [Benchmark(OperationsPerInvoke = Values)]
    public void Scalar()
    {
        switch (Of)
        {
            case Function.Exp: Each(Elementary.Exp); break;
            case Function.Log: Each(Elementary.Log); break;
            case Function.Tanh: Each(Elementary.Tanh); break;
            case Function.SinCos: EachPair(Elementary.SinCos); break;
            case Function.ToGain: Each(Decibels.ToGain); break;
            case Function.FromGain: Each(Decibels.FromGain); break;
        }
    }

    [Benchmark(OperationsPerInvoke = Values)]
    public void Span()
    {
        switch (Of)
        {
            case Function.Exp: Elementary.Exp(_arguments, _results); break;
            case Function.Log: Elementary.Log(_arguments, _results); break;
            case Function.Tanh: Elementary.Tanh(_arguments, _results); break;
            case Function.SinCos: Elementary.SinCos(_arguments, _results, _others); break;
            case Function.ToGain: Decibels.ToGain(_arguments, _results); break;
            case Function.FromGain: Decibels.FromGain(_arguments, _results); break;
        }
    }

    [Benchmark(OperationsPerInvoke = Values, Baseline = true)]
    public void Runtime()
    {
        switch (Of)
        {
            case Function.Exp: Each(Math.Exp); break;
            case Function.Log: Each(Math.Log); break;
            case Function.Tanh: Each(Math.Tanh); break;
            case Function.SinCos: EachPair(Math.SinCos); break;
            case Function.ToGain: Each(static x => Math.Pow(10, x / 20)); break;
            case Function.FromGain: Each(static x => 20 * Math.Log10(x)); break;
        }
    }

    private void Each(Func<double, double> function)
    {
        for (var i = 0; i < Values; i++)
        {
            _results[i] = function(_arguments[i]);
        }
    }

    private void EachPair(Func<double, (double, double)> function)
    {
        for (var i = 0; i < Values; i++)
        {
            (_results[i], _others[i]) = function(_arguments[i]);
        }
    }
}
