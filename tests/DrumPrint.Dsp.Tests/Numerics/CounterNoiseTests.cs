using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Numerics;

/// <summary>The noise against the SplitMix64 generator (Steele, Lea and Flood, 2014) and the statistics of even noise.</summary>
public class CounterNoiseTests
{
    private const int Draws = 100_000;

    [Fact]
    public void The_oracle_gives_the_known_first_output_of_SplitMix64_for_seed_0()
    {
        // Widely printed check value; from memory.
        Assert.Equal(0xE220_A839_7B1D_CDAF, SplitMix64(0).First());
    }

    [Theory]
    [InlineData(0UL)]
    [InlineData(1UL)]
    [InlineData(0xDEAD_BEEF_0123_4567UL)]
    public void Counting_up_walks_the_sequence_seeded_by_the_mixed_seed(ulong seed)
    {
        var noise = new CounterNoise(seed);
        var state = SplitMix64(seed).First();

        var expected = SplitMix64(state).Take(100);

        Assert.Equal(expected, Enumerable.Range(1, 100).Select(n => noise.Bits(n)));
    }

    [Fact]
    public void Draws_are_even_between_their_ends()
    {
        var noise = CounterNoise.FromName("snare");

        var draws = Enumerable.Range(0, Draws).Select(n => noise.Bipolar(n)).ToArray();

        Assert.All(draws, draw => Assert.True(draw is >= -1 and < 1));
        Assert.InRange(draws.Average(), -NumericsTolerance.NoiseMean, NumericsTolerance.NoiseMean);
        Assert.InRange(draws.Average(draw => draw * draw) - (1.0 / 3), -NumericsTolerance.NoisePower, NumericsTolerance.NoisePower);
        Assert.InRange(draws.Zip(draws.Skip(1), (a, b) => a * b).Average(), -NumericsTolerance.NoisePower, NumericsTolerance.NoisePower);
    }

    [Fact]
    public void Unit_draws_are_the_upper_53_bits()
    {
        var noise = new CounterNoise(7);

        Assert.All(Enumerable.Range(0, 1000), n => Assert.Equal((noise.Bits(n) >> 11) / 9007199254740992.0, noise.Unit(n)));
    }

    [Fact]
    public void Names_have_noise_of_their_own_and_keep_it()
    {
        var first = CounterNoise.FromName("kick");

        Assert.Equal(first.Bits(5), CounterNoise.FromName("kick").Bits(5));
        Assert.NotEqual(first.Bits(5), CounterNoise.FromName("Kick").Bits(5));
    }

    private static IEnumerable<ulong> SplitMix64(ulong state)
    {
        while (true)
        {
            state = unchecked(state + 0x9E37_79B9_7F4A_7C15);
            var z = state;
            z = unchecked((z ^ (z >> 30)) * 0xBF58_476D_1CE4_E5B9);
            z = unchecked((z ^ (z >> 27)) * 0x94D0_49BB_1331_11EB);
            yield return z ^ (z >> 31);
        }
    }
}
