using DrumPrint.Chains.Reading;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Chains;

public sealed class ReadmeTests
{
    [Fact]
    public void The_chain_that_the_readme_shows_can_be_read()
    {
        var text = File.ReadAllText(Path.Combine(Goldens.Repository, "README.md"));
        var example = Assert.Single(text.Split("```jsonc\n").Skip(1).Select(b => b[..b.IndexOf("```", StringComparison.Ordinal)]), b => b.Contains("\"chain\": 1", StringComparison.Ordinal));

        var chain = ChainReader.Parse(example, "my-song.chain.json");

        Assert.Equal([1, 2, 3, 4, 5], chain.Prints.Select(p => p.Number));
        Assert.NotEmpty(chain.DrumBus);
    }
}
