using DrumPrint.Chains.Reading;
using DrumPrint.Session;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Chains;

public sealed class ReadmeTests
{
    private static readonly string Readme = File.ReadAllText(Repository.File("README.md"));

    [Fact]
    public void The_chain_that_the_readme_shows_prints_as_it_stands()
    {
        using var session = new TestSession();
        var path = Path.Combine(session.Folder, "my-song.chain.json");
        File.WriteAllText(path, Example());
        var chain = ChainReader.Read(path);
        foreach (var track in chain.Tracks)
        {
            session.Track(track.File, Hits());
        }

        var report = session.Print(chain, new PrintOptions());

        Assert.Equal([1, 2, 3, 4, 5, 6, 90, 91], report.Prints.Select(p => p.Number));
        Assert.Empty(report.Findings);
        Assert.Equal(TestSession.Rate, report.Frames);
    }

    [Fact]
    public void The_chain_that_the_readme_shows_has_overheads_and_needs_no_impulse()
    {
        var chain = ChainReader.Parse(Example(), "my-song.chain.json");

        Assert.Equal(["oh left", "oh right"], chain.Buses.First(b => b.Name == "overheads").Feeds.Select(f => f.Source));
        Assert.Empty(chain.Impulses);
    }

    [Fact]
    public void One_line_of_the_readme_says_how_to_leave_the_demo() => Assert.Single(Readme.Split('\n'), l => l.Contains("leave the demo", StringComparison.Ordinal));

    [Fact]
    public void The_readme_has_at_most_130_lines() => Assert.InRange(Readme.Split('\n').Length, 40, 130);

    private static string Example() => Assert.Single(
        Readme.Split("```jsonc\n").Skip(1).Select(b => b[..b.IndexOf("```", StringComparison.Ordinal)]),
        b => b.Contains("\"chain\": 1", StringComparison.Ordinal));

    // Two hits in a second: what a gate opens for and a compressor turns down.
    private static double[] Hits() =>
        [.. Enumerable.Range(0, TestSession.Rate).Select(n => 0.4 * Math.Exp(-(n % (TestSession.Rate / 2)) / 2000.0) * Math.Sin(n * 0.03))];
}
