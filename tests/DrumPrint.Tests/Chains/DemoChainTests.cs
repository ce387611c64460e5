using DrumPrint.Chains.Reading;
using DrumPrint.Chains.Writing;
using DrumPrint.Demo;

namespace DrumPrint.Tests.Chains;

public sealed class DemoChainTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("drumprint-");

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void The_chain_of_the_demo_reads_and_keeps_its_meaning(bool full)
    {
        var path = Path.Combine(_folder.FullName, "SlowFerry.chain.json");
        _folder.CreateSubdirectory("raw");
        File.WriteAllText(Path.Combine(_folder.FullName, "raw", "tempo.json"), full ? Tempo(1, 84) : Tempo(17, 26));

        var chain = ChainReader.Parse(ChainText.Of(full), path);
        var again = ChainReader.Parse(ChainWriter.Canonical(chain), path);

        Same.Chains(chain, again);
        Assert.Equal(14, chain.Prints.Count(p => !p.IsOptional));
    }

    public void Dispose() => _folder.Delete(recursive: true);

    private static string Tempo(int first, int last) =>
        $$"""{ "tempo_map": 1, "bars": [ { "from_bar": {{first}}, "metre": "4/4", "bpm": 104 } ], "last_bar": {{last}} }""";
}
