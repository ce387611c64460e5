using System.Text.RegularExpressions;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Toolkit;

public sealed partial class EngineExampleTests
{
    [Fact]
    public void Every_example_of_the_guide_is_compiled_line_by_line()
    {
        var compiled = new[] { "Example.cs", "EngineExample.cs" }
            .SelectMany(f => File.ReadAllLines(Repository.File("tests", "DrumPrint.Tests", "Toolkit", f)))
            .Select(l => l.Trim())
            .ToHashSet();
        var guide = File.ReadAllText(Repository.File("docs", "guide", "library.md")).ReplaceLineEndings("\n");

        var shown = CodeBlock().Matches(guide).SelectMany(m => m.Groups[1].Value.Split('\n')).Select(l => l.Trim()).Where(l => l.Length > 0).ToList();

        Assert.True(shown.Count >= 20);
        Assert.All(shown, line => Assert.Contains(line, compiled));
    }

    [Fact]
    public void The_engine_s_examples_print_print_again_and_measure()
    {
        using var session = new TestSession();
        session.Track("raw/kick.wav", Signals.Hits(TestSession.Rate, 1));
        var path = Path.Combine(session.Folder, "small.chain.json");
        File.WriteAllText(path, """
            { "chain": 1,
              "song": { "title": "Small", "code": "Small", "rate_hz": 48000 },
              "tracks": { "kick": "raw/kick.wav" },
              "buses": { "drums": { "from": { "kick": 0 } } },
              "prints": [ { "number": 1, "name": "Kick", "bus": "drums" } ] }
            """);

        var (report, files) = EngineExample.Printing(path, session.Prints);

        Assert.Equal("01_Kick_Small_v1.wav", files[0]);
        Assert.True(report.AddsUp);
        Assert.True(EngineExample.PrintingAgain(report));
        Assert.InRange(EngineExample.Measuring(Path.Combine(session.Prints, files[0]))!.Value, -60, 0);
    }

    [GeneratedRegex("```csharp\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex CodeBlock();
}
