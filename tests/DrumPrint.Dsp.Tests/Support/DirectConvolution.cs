namespace DrumPrint.Dsp.Tests.Support;

/// <summary>Convolution by its definition.</summary>
internal static class DirectConvolution
{
    /// <summary>One output frame: Σ h[k]·x[n − k].</summary>
    public static double At(double[] x, double[] h, int n)
    {
        var sum = 0.0;
        for (var k = Math.Max(0, n - x.Length + 1); k < h.Length && k <= n; k++)
        {
            sum += h[k] * x[n - k];
        }

        return sum;
    }
}
