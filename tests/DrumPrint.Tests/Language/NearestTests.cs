using DrumPrint.Language;

namespace DrumPrint.Tests.Language;

public sealed class NearestTests
{
    /// <summary>The textbook pair, and the pair by which optimal string alignment differs from the unrestricted
    /// Damerau-Levenshtein distance (2 there).</summary>
    [Theory]
    [InlineData("kitten", "sitting", 3)]
    [InlineData("ca", "abc", 3)]
    [InlineData("ratio", "ratoi", 1)]
    [InlineData("", "snare", 5)]
    [InlineData("snare", "snare", 0)]
    public void Distance_counts_slips_of_the_finger(string a, string b, int expected)
    {
        Assert.Equal(expected, Nearest.Distance(a, b));
        Assert.Equal(expected, Nearest.Distance(b, a));
    }

    [Theory]
    [InlineData("snaer", "snare")]
    [InlineData("SNARE", "snare")]
    [InlineData(" kick ", "kick")]
    [InlineData("sna", "snare")]
    [InlineData("triangle", null)]
    [InlineData("sn", null)]
    [InlineData("x", null)]
    public void A_word_is_offered_only_when_it_is_close(string given, string? expected) =>
        Assert.Equal(expected, Nearest.Word(given, ["kick", "snare", "hat", "y"]));

    [Theory]
    [InlineData("comp", "compress")]
    [InlineData("clap", "clip")]
    [InlineData("com", "compress")]
    [InlineData("slap", "clip")]
    public void The_start_of_a_word_is_nearer_than_a_few_slips_and_not_than_one(string given, string expected) =>
        Assert.Equal(expected, Nearest.Word(given, ["clip", "compress"]));
}
