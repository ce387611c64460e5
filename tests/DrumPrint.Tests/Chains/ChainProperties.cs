using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;
using FsCheck.Xunit;

namespace DrumPrint.Tests.Chains;

public sealed class ChainProperties
{
    private const string Keys = "{}[],:\"\\/*#'-+.e0 \n\u2212\ud83e";

    private static readonly string Small = File.ReadAllText(Fixtures.Chain("small.chain.json"));

    [Property]
    public void A_chain_comes_back_from_its_canonical_form_as_it_was(int seed)
    {
        var chain = new RandomChain(seed).Next();

        var again = ChainReader.Parse(ChainWriter.Canonical(chain), chain.Path, TestCatalogue.All);

        Same.Chains(chain, again);
    }

    [Property]
    public void The_canonical_form_does_not_depend_on_how_a_chain_is_written(int seed)
    {
        var chain = new RandomChain(seed).Next();
        var canonical = ChainWriter.Canonical(chain);

        var again = ChainReader.Parse(new Reformatted(seed).Write(canonical), chain.Path, TestCatalogue.All);

        Assert.Equal(canonical, ChainWriter.Canonical(again));
    }

    [Property]
    public void Any_text_is_read_or_refused_with_located_mistakes(string? text) => ReadsOrRefuses(text ?? "");

    [Property(MaxTest = 1000)]
    public void A_chain_with_slips_of_the_finger_is_read_or_refused_with_located_mistakes(int seed)
    {
        var random = new Random(seed);
        var text = Small;
        for (var slips = random.Next(1, 4); slips > 0; slips--)
        {
            var at = random.Next(text.Length);
            var length = Math.Min(random.Next(1, 8), text.Length - at);
            text = random.Next(4) switch
            {
                0 => text.Remove(at, length),
                1 => text.Insert(at, text.Substring(random.Next(text.Length - length), length)),
                2 => text.Insert(at, Keys[random.Next(Keys.Length)].ToString()),
                _ => text.Remove(at, length).Insert(at, new string(text.Substring(at, length).Reverse().ToArray())),
            };
        }

        ReadsOrRefuses(text);
    }

    private static void ReadsOrRefuses(string text)
    {
        try
        {
            Assert.NotNull(ChainReader.Parse(text, Fixtures.Chain("song.chain.json"), TestCatalogue.All));
        }
        catch (ChainException exception)
        {
            var lines = text.Split('\n');
            Assert.NotEmpty(exception.Problems);
            Assert.All(exception.Problems, problem =>
            {
                Assert.InRange(problem.Line, 1, lines.Length);
                Assert.InRange(problem.Column, 1, lines[problem.Line - 1].Length + 1);
                Assert.Matches("[.?]$", problem.Message);
            });
        }
    }
}
