using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;

namespace DrumPrint.Dsp.Tests.Numerics;

/// <summary>Spans worked on several lanes at a time against the scalar form: the same bits, whatever the width and length.</summary>
public class LaneAgreementTests
{
    private static readonly IReadOnlyDictionary<string, Form> Forms = new Dictionary<string, Form>
    {
        ["Exp"] = Of<Elementary.ExpFunction>(Elementary.Exp, Elementary.Exp),
        ["Log"] = Of<Elementary.LogFunction>(Elementary.Log, Elementary.Log),
        ["Tanh"] = Of<Elementary.TanhFunction>(Elementary.Tanh, Elementary.Tanh),
        ["ToGain"] = Of<Decibels.ToGainFunction>(Decibels.ToGain, Decibels.ToGain),
        ["FromGain"] = Of<Decibels.FromGainFunction>(Decibels.FromGain, Decibels.FromGain),
        ["Sin"] = new(
            x => Elementary.SinCos(x).Sin,
            [
                (source, sines) => Elementary.SinCos(source, sines, new double[source.Length]),
                (source, sines) => Elementary.SinCos<Lane1>(source, sines, new double[source.Length]),
                (source, sines) => Elementary.SinCos<Lane2>(source, sines, new double[source.Length]),
                (source, sines) => Elementary.SinCos<Lane4>(source, sines, new double[source.Length]),
            ]),
        ["Cos"] = new(
            x => Elementary.SinCos(x).Cos,
            [
                (source, cosines) => Elementary.SinCos(source, new double[source.Length], cosines),
                (source, cosines) => Elementary.SinCos<Lane1>(source, new double[source.Length], cosines),
                (source, cosines) => Elementary.SinCos<Lane2>(source, new double[source.Length], cosines),
                (source, cosines) => Elementary.SinCos<Lane4>(source, new double[source.Length], cosines),
            ]),
    };

    private delegate void SpanFunction(ReadOnlySpan<double> source, Span<double> destination);

    public static TheoryData<string> Functions => new(Forms.Keys);

    [Theory]
    [MemberData(nameof(Functions))]
    public void Every_width_and_remainder_gives_the_bits_of_the_scalar(string function)
    {
        var form = Forms[function];
        var arguments = NumericsSweep.Ordinary(function, 2000);

        foreach (var span in form.Spans)
        {
            AssertAgrees(form.Scalar, span, arguments);
            for (var length = 0; length <= 17; length++)
            {
                AssertAgrees(form.Scalar, span, arguments[..length]);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Functions))]
    public void Lanes_beside_special_values_keep_the_bits_of_the_scalar(string function)
    {
        var form = Forms[function];
        double[] special =
        [
            0, -0.0, double.Epsilon, -1e-310, double.NaN, double.PositiveInfinity, double.NegativeInfinity, 1e300, -1e300,
            709.79, -708.1, -745.2, 6000.1, -6000.1, 1 << 30, (1 << 30) + 1, 22, 1,
        ];

        foreach (var span in form.Spans)
        {
            for (var at = 0; at < 4; at++)
            {
                foreach (var value in special)
                {
                    var arguments = NumericsSweep.Ordinary(function, 9);
                    arguments[at] = value;

                    AssertAgrees(form.Scalar, span, arguments);
                }
            }

            AssertAgrees(form.Scalar, span, NumericsSweep.Anything(2000));
        }
    }

    [Theory]
    [MemberData(nameof(Functions))]
    public void A_span_may_be_worked_on_in_place(string function)
    {
        var form = Forms[function];
        var values = NumericsSweep.Ordinary(function, 23);
        var expected = values.Select(form.Scalar).ToArray();

        form.Spans[0](values, values);

        Assert.Equal(expected, values);
    }

    [Theory]
    [MemberData(nameof(Functions))]
    public void Nothing_is_written_past_the_length_of_the_source(string function)
    {
        var destination = Enumerable.Repeat(-7.0, 20).ToArray();

        foreach (var span in Forms[function].Spans)
        {
            span(NumericsSweep.Ordinary(function, 11), destination);

            Assert.All(destination[11..], value => Assert.Equal(-7, value));
        }
    }

    [Fact]
    public void A_destination_that_is_too_short_is_refused()
    {
        Assert.Throws<ArgumentException>(() => Elementary.Exp(new double[3], new double[2]));
        Assert.Throws<ArgumentException>(() => Elementary.SinCos(new double[3], new double[3], new double[2]));
        Assert.Throws<ArgumentException>(() => Elementary.SinCos(new double[3], new double[2], new double[3]));
    }

    private static Form Of<TFunction>(Func<double, double> scalar, SpanFunction span)
        where TFunction : struct, ILaneFunction =>
        new(scalar, [span, Lanewise.Apply<TFunction, Lane1>, Lanewise.Apply<TFunction, Lane2>, Lanewise.Apply<TFunction, Lane4>]);

    private static void AssertAgrees(Func<double, double> scalar, SpanFunction span, double[] arguments)
    {
        var results = new double[arguments.Length];

        span(arguments, results);

        for (var i = 0; i < arguments.Length; i++)
        {
            Assert.True(NumericsSweep.Bits(scalar(arguments[i])) == NumericsSweep.Bits(results[i]), $"lane {i} of {arguments.Length} at {arguments[i]:R}");
        }
    }

    private sealed record Form(Func<double, double> Scalar, SpanFunction[] Spans);
}
