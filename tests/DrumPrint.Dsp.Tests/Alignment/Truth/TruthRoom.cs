using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Tests.Alignment.Truth;

/// <summary>A box of a room that answers: the direct sound, mirror sources up to the second order, a diffuse tail.</summary>
/// <remarks>Mirror sources: Allen and Berkley, JASA 65 (1979); diffuse energy by the critical distance, at which it equals the
/// direct one (ISO 3382 use).</remarks>
internal sealed class TruthRoom
{
    private const double MetresPerSecond = 343.2;
    private const int HalfTaps = 24;
    private const int Orders = 2;
    private const double TailStartsS = 0.006;
    private const double LengthS = 0.4;

    private readonly double[] _size;
    private readonly double _reflection;
    private readonly double _dullingHz;
    private readonly double _decayS;
    private readonly double _criticalM;
    private readonly int _rateHz;
    private readonly TruthRandom _random;
    private readonly double[] _decay;

    public TruthRoom(int rateHz, TruthRandom random)
    {
        (_rateHz, _random) = (rateHz, random);
        _size = [random.Between(6, 9), random.Between(4.5, 7), random.Between(2.5, 3.6)];
        _reflection = random.Between(0.45, 0.8);
        _dullingHz = random.Between(3000, 9000);
        _decayS = random.Between(0.25, 0.6);
        _criticalM = random.Between(0.7, 1.3);
        _decay = new double[(int)(LengthS * _rateHz)];
        for (var n = 0; n < _decay.Length; n++)
        {
            var seconds = (double)n / _rateHz;
            _decay[n] = Elementary.Exp(-6.9078 * seconds / _decayS);
        }
    }

    public double[] Size => _size;

    public static double Frames(double[] from, double[] to, int rateHz) => Distance(from, to) / MetresPerSecond * rateHz;

    public static double Distance(double[] from, double[] to) => Math.Sqrt(from.Zip(to, (a, b) => (a - b) * (a - b)).Sum());

    /// <summary>What reaches a microphone of a click at a source; 1 at 1 m.</summary>
    public double[] Response(double[] source, double[] microphone)
    {
        var byOrder = new double[Orders + 1][];
        for (var order = 0; order <= Orders; order++)
        {
            byOrder[order] = new double[(int)(LengthS * _rateHz)];
        }

        foreach (var (position, order) in Mirrored(source))
        {
            AddPulse(byOrder[order], Frames(position, microphone, _rateHz), Elementary.Pow(_reflection, order) / Math.Max(0.03, Distance(position, microphone)));
        }

        var result = byOrder[0];
        for (var order = 1; order <= Orders; order++)
        {
            for (var i = 0; i < order; i++)
            {
                new FilterCascade(BiquadDesign.LowPass(_dullingHz, 1, _rateHz)).Process(byOrder[order]);
            }

            Add(result, byOrder[order]);
        }

        Add(result, Tail((int)Frames(source, microphone, _rateHz)));
        return result;
    }

    private static void Add(double[] line, double[] more)
    {
        for (var n = 0; n < line.Length; n++)
        {
            line[n] += more[n];
        }
    }

    private static void AddPulse(double[] line, double at, double level)
    {
        for (var n = (int)at - HalfTaps + 1; n <= (int)at + HalfTaps; n++)
        {
            if (n < 0 || n >= line.Length)
            {
                continue;
            }

            var t = n - at;
            var sinc = Math.Abs(t) < 1e-9 ? 1 : Elementary.Sin(Math.PI * t) / (Math.PI * t);
            line[n] += level * sinc * (0.5 + (0.5 * Elementary.Cos(Math.PI * t / HalfTaps)));
        }
    }

    private IEnumerable<(double[] Position, int Order)> Mirrored(double[] source)
    {
        for (var x = -Orders; x <= Orders; x++)
        {
            for (var y = -Orders; y <= Orders; y++)
            {
                for (var z = -Orders; z <= Orders; z++)
                {
                    var order = Math.Abs(x) + Math.Abs(y) + Math.Abs(z);
                    if (order <= Orders)
                    {
                        yield return ([Mirror(source[0], _size[0], x), Mirror(source[1], _size[1], y), Mirror(source[2], _size[2], z)], order);
                    }
                }
            }
        }
    }

    private static double Mirror(double at, double size, int times) => (times & 1) == 0 ? at + (times * size) : ((times + 1) * size) - at;

    private double[] Tail(int direct)
    {
        var tail = new double[(int)(LengthS * _rateHz)];
        var from = direct + (int)(TailStartsS * _rateHz);
        for (var n = from; n < tail.Length; n++)
        {
            var seconds = (double)(n - from) / _rateHz;
            tail[n] = _random.Between(-1, 1) * _decay[n - from] * Math.Min(1, seconds / 0.02);
        }

        new FilterCascade(BiquadDesign.LowPass(_dullingHz, 1, _rateHz)).Process(tail);
        var energy = 0.0;
        foreach (var v in tail)
        {
            energy += v * v;
        }

        var gain = 1 / (_criticalM * Math.Sqrt(energy));
        for (var n = 0; n < tail.Length; n++)
        {
            tail[n] *= gain;
        }

        return tail;
    }
}
