using System.Text.RegularExpressions;

namespace DrumPrint.Tests.Toolkit;

/// <summary>What a release says of itself fits the version, the script that makes it and the page people install by.</summary>
public sealed partial class ReleaseTests
{
    private const int SubjectLength = 72; // as in this project's commits

    private static readonly string Script = File.ReadAllText(Repository.File("tools", "release.sh"));

    private static readonly string Page = File.ReadAllText(Repository.File("docs", "guide", "install.md"));

    private static string Version => Regex.Match(File.ReadAllText(Repository.File("Directory.Build.props")), "<Version>(.+)</Version>").Groups[1].Value;

    [Fact]
    public void The_version_has_its_changes_and_the_text_of_its_tag()
    {
        var tag = File.ReadAllLines(Repository.File("docs", "releases", $"{Version}.md"));

        Assert.Matches($@"(?m)^## {Regex.Escape(Version)}\b", File.ReadAllText(Repository.File("CHANGELOG.md")));
        Assert.StartsWith($"DrumPrint {Version}: ", tag[0], StringComparison.Ordinal);
        Assert.InRange(tag[0].Length, 1, SubjectLength);
        Assert.Equal("", tag[1]);
        Assert.Contains(tag, l => l.Contains("1.0 will freeze", StringComparison.Ordinal));
    }

    [Fact]
    public void The_page_names_an_archive_for_each_system_and_no_other()
    {
        var made = Parts().Match(Script).Groups[1].Value.Split(' ').Where(p => p != "packages").Select(s => s.StartsWith("win-", StringComparison.Ordinal) ? $"{s}.zip" : $"{s}.tar.gz");

        Assert.Equal(made.Order(StringComparer.Ordinal), Archives().Matches(Page).Select(m => m.Groups[1].Value).Distinct().Order(StringComparer.Ordinal));
    }

    [Fact]
    public void What_to_do_about_unsigned_programs_takes_two_lines_and_names_both_systems()
    {
        var told = Page.ReplaceLineEndings("\n").Split("\n\n").Single(p => p.StartsWith("**The programs are not signed.**", StringComparison.Ordinal)).TrimEnd().Split('\n');

        Assert.Equal(2, told.Length);
        Assert.Contains("macOS", told[0], StringComparison.Ordinal);
        Assert.Contains("Windows", told[1], StringComparison.Ordinal);
    }

    [GeneratedRegex(@"\|\| parts=\(([^)]+)\)")]
    private static partial Regex Parts();

    [GeneratedRegex(@"`([a-z]+-[a-z0-9]+\.(?:zip|tar\.gz))`")]
    private static partial Regex Archives();
}
