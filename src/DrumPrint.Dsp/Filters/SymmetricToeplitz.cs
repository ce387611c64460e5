namespace DrumPrint.Dsp.Filters;

/// <summary>Solves equations whose matrix is symmetric, positive definite and the same along every diagonal.</summary>
internal static class SymmetricToeplitz
{
    /// <param name="column">First column of the matrix.</param>
    /// <param name="right">Right side.</param>
    /// <remarks>Cholesky's split, which asks for nothing but a positive definite matrix and loses the fewest digits.</remarks>
    public static double[] Solve(ReadOnlySpan<double> column, ReadOnlySpan<double> right)
    {
        var count = column.Length;
        var lower = new double[count][];
        var solution = right.ToArray();
        for (var i = 0; i < count; i++)
        {
            lower[i] = new double[i + 1];
            for (var j = 0; j <= i; j++)
            {
                var sum = column[i - j];
                for (var k = 0; k < j; k++)
                {
                    sum -= lower[i][k] * lower[j][k];
                }

                lower[i][j] = i == j ? Math.Sqrt(sum) : sum / lower[j][j];
            }
        }

        for (var i = 0; i < count; i++)
        {
            for (var k = 0; k < i; k++)
            {
                solution[i] -= lower[i][k] * solution[k];
            }

            solution[i] /= lower[i][i];
        }

        for (var i = count - 1; i >= 0; i--)
        {
            for (var k = i + 1; k < count; k++)
            {
                solution[i] -= lower[k][i] * solution[k];
            }

            solution[i] /= lower[i][i];
        }

        return solution;
    }
}
