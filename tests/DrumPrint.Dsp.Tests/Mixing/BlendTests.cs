using DrumPrint.Dsp.Mixing;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Mixing;

/// <summary>The scalar line that ends each loop is its definition: sample by sample nothing else runs, and the bits are the same.</summary>
public sealed class BlendTests
{
    private const int Longest = 67;

    [Fact]
    public void Copy_gives_at_any_length_the_bits_of_its_scalar_line() =>
        Agree((source, target) => Blend.Copy(source, -0.37, target), (x, _) => x * -0.37);

    [Fact]
    public void Begin_gives_at_any_length_the_bits_of_its_scalar_line() =>
        Agree((source, target) => Blend.Begin(source, -0.37, target), (x, _) => 0 + (x * -0.37));

    [Fact]
    public void Add_gives_at_any_length_the_bits_of_its_scalar_line() =>
        Agree((source, target) => Blend.Add(source, 0.7, target), (x, y) => y + (x * 0.7));

    [Fact]
    public void Adding_along_a_curve_gives_at_any_length_the_bits_of_its_scalar_line() =>
        Agree((source, target) => Blend.Add(source, source, target), (x, y) => y + (x * x));

    [Fact]
    public void Exchanging_changes_places_and_no_bit()
    {
        for (var length = 0; length <= Longest; length++)
        {
            var (one, other) = (Samples(length, 1), Samples(length, 2));
            var (a, b) = (one.ToArray(), other.ToArray());

            Blend.Exchange(a, b);

            Assert.Equal(Bits(one), Bits(b));
            Assert.Equal(Bits(other), Bits(a));
        }
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void The_peak_is_that_of_the_samples_one_by_one(double strange)
    {
        for (var length = 1; length <= Longest; length++)
        {
            for (var at = 0; at < length; at++)
            {
                var samples = Signals.Noise(length, 3);
                samples[at] = strange;

                Assert.Equal(samples.Aggregate(0.25, (peak, x) => Math.Max(peak, Math.Abs(x))), Blend.Peak(samples, 0.25));
            }
        }
    }

    private delegate void Kernel(ReadOnlySpan<double> source, Span<double> target);

    private static void Agree(Kernel kernel, Func<double, double, double> definition)
    {
        for (var length = 0; length <= Longest; length++)
        {
            var (source, before) = (Samples(length, 1), Samples(length, 2));
            var (whole, single) = (before.ToArray(), before.ToArray());

            kernel(source, whole);
            for (var n = 0; n < length; n++)
            {
                kernel(source.AsSpan(n, 1), single.AsSpan(n, 1));
            }

            Assert.Equal(Bits(single), Bits(whole));
            Assert.Equal(Bits([.. source.Zip(before, definition)]), Bits(whole));
        }
    }

    // Noise with both zeros and the smallest numbers there are.
    private static double[] Samples(int length, ulong seed) =>
        [.. Signals.Noise(length, seed).Select((x, n) => (n % 11) switch { 3 => -0.0, 5 => 0.0, 7 => double.Epsilon, _ => x })];

    private static long[] Bits(double[] samples) => Array.ConvertAll(samples, BitConverter.DoubleToInt64Bits);
}
