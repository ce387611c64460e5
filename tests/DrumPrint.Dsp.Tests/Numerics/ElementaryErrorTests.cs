using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Numerics;

/// <summary>Every function against values rounded from 300-bit arithmetic (GNU MPFR; see fixtures/numerics).</summary>
public class ElementaryErrorTests
{
    public static TheoryData<string> Functions => new(ElementaryTable.Functions.Keys);

    [Theory]
    [MemberData(nameof(Functions))]
    public void The_error_stays_within_the_stated_bound(string function)
    {
        var rows = ElementaryTable.Of(function).ToArray();

        var worst = rows.MaxBy(row => row.UlpError(ElementaryTable.Functions[function](row.X, row.Y)));

        var error = worst.UlpError(ElementaryTable.Functions[function](worst.X, worst.Y));
        Assert.True(rows.Length > 100);
        Assert.True(error <= NumericsTolerance.MaxUlp[function], $"{error:F3} ulp at {worst.X:R}, {worst.Y:R}");
    }

    [Fact]
    public void Every_stated_bound_is_within_one_ulp() =>
        Assert.All(NumericsTolerance.MaxUlp.Values, bound => Assert.InRange(bound, 0.5, 1));
}
