using DrumPrint.Chains;
using DrumPrint.Chains.Reading;

namespace DrumPrint.Tests.Chains;

public sealed class SeededMistakesTests
{
    [Fact]
    public void Twelve_mistakes_and_five_missing_files_are_told_in_one_run()
    {
        var expected = File.ReadAllLines(Fixtures.Chain("twelve-mistakes.txt"));

        var exception = Assert.Throws<ChainException>(() => ChainReader.Read(Fixtures.Chain("twelve-mistakes.chain.json")));

        Assert.Equal(expected, exception.Problems.Select(p => (p with { File = Path.GetFileName(p.File) }).ToString()));
        Assert.Equal(12 + 5, exception.Problems.Count);
    }
}
