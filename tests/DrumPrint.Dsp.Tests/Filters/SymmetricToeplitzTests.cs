using DrumPrint.Dsp.Filters;

namespace DrumPrint.Dsp.Tests.Filters;

public sealed class SymmetricToeplitzTests
{
    [Fact]
    public void The_answer_put_in_gives_the_right_side()
    {
        double[] column = [4, 1.5, -0.5, 0.25];
        double[] right = [1, -2, 3, 0.5];

        var answer = SymmetricToeplitz.Solve(column, right);

        for (var row = 0; row < right.Length; row++)
        {
            Assert.Equal(right[row], Enumerable.Range(0, right.Length).Sum(c => column[Math.Abs(row - c)] * answer[c]), 1e-14); // 64-bit rounding
        }
    }
}
