using DrumPrint.Chains;

namespace DrumPrint.Tests.Chains;

public sealed class ChainReaderTests
{
    [Fact]
    public void The_small_example_reads()
    {
        var chain = ChainReader.Read(Fixtures.Chain("small.chain.json"));

        Assert.Equal("SlowFerry", chain.Song.Code);
    }
}
