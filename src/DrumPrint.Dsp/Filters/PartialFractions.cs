namespace DrumPrint.Dsp.Filters;

/// <summary>Two second-order sections in series as a gain and two sections side by side: direct + first + second.</summary>
/// <remarks>Partial fractions in z⁻¹. Not for sections that share a pole or have a pole at 0.</remarks>
/// <param name="Direct">Gain of the signal itself.</param>
/// <param name="First">With the poles of the first section; its B2 is 0.</param>
/// <param name="Second">With the poles of the second section; its B2 is 0.</param>
internal sealed record PartialFractions(double Direct, PartialFraction First, PartialFraction Second)
{
    /// <summary>Splits two sections.</summary>
    public static PartialFractions Of(IReadOnlyList<BiquadCoefficients> sections)
    {
        var (a, c) = (sections[0], sections[1]);
        var direct = a.B2 * c.B2 / (a.A2 * c.A2);

        // numerators' product − direct · denominators' product = P C + Q A, up to z⁻³.
        double[] rest =
        [
            (a.B0 * c.B0) - direct,
            (a.B0 * c.B1) + (a.B1 * c.B0) - (direct * (a.A1 + c.A1)),
            (a.B0 * c.B2) + (a.B1 * c.B1) + (a.B2 * c.B0) - (direct * (a.A2 + (a.A1 * c.A1) + c.A2)),
            (a.B1 * c.B2) + (a.B2 * c.B1) - (direct * ((a.A1 * c.A2) + (a.A2 * c.A1))),
        ];
        double[][] rows =
        [
            [1, 0, 1, 0, rest[0]],
            [c.A1, 1, a.A1, 1, rest[1]],
            [c.A2, c.A1, a.A2, a.A1, rest[2]],
            [0, c.A2, 0, a.A2, rest[3]],
        ];
        var p = Solve(rows);
        return new(direct, new PartialFraction(p[0], p[1], a.A1, a.A2), new PartialFraction(p[2], p[3], c.A1, c.A2));
    }

    // Gauss with the largest pivot of each column.
    private static double[] Solve(double[][] rows)
    {
        for (var column = 0; column < rows.Length; column++)
        {
            var best = Enumerable.Range(column, rows.Length - column).MaxBy(r => Math.Abs(rows[r][column]));
            (rows[column], rows[best]) = (rows[best], rows[column]);
            foreach (var row in rows.Where(r => !ReferenceEquals(r, rows[column])))
            {
                var factor = row[column] / rows[column][column];
                for (var k = column; k <= rows.Length; k++)
                {
                    row[k] -= factor * rows[column][k];
                }
            }
        }

        return [.. rows.Select((r, k) => r[rows.Length] / r[k])];
    }
}

/// <summary>One of <see cref="PartialFractions"/>: (b0 + b1 z⁻¹) / (1 + a1 z⁻¹ + a2 z⁻²).</summary>
internal readonly record struct PartialFraction(double B0, double B1, double A1, double A2);
