namespace DrumPrint.Conformance.Tests;

/// <summary>The sheet docs/conformance.md as a whole, and its lines that are times.</summary>
[Collection(AloneGroup.Name)]
public sealed class SheetTests
{
    public static TheoryData<string> Times => [.. AllChecks.Flat.Where(c => c.RunsAlone).Select(c => c.ToString())];

    [Theory]
    [MemberData(nameof(Times))]
    public void Every_time_is_met_or_marked_as_missed_with_the_reason(string name) => ConformanceTests.MeetsItsBarOrIsMarked(name);

    [Fact]
    public void The_sheet_says_what_is_measured_today() =>
        Assert.Null(Sheet.Difference(File.ReadAllText(Repository.File("docs", "conformance.md")), Sheet.Text()));

    [Fact]
    public void Every_section_is_tested_once() =>
        Assert.Equal(AllChecks.Sections.Select(s => s.Title).Order(), ConformanceTests.Sections.Values.SelectMany(s => s).Order());

    [Fact]
    public void Every_check_names_its_source() => Assert.All(AllChecks.Flat, c => Assert.True(c.Source.Length > 5, c.ToString()));

    [Theory]
    [InlineData("| a | b | | ≤ 1 | 0.52 dB |", "| a | b | | ≤ 1 | 0.53 dB |", true)]
    [InlineData("| a | b | | ≤ 1 | 0.52 dB |", "| a | b | | ≤ 1 | 0.54 dB |", false)]
    [InlineData("| a | b | | ≤ 1 | 0.52 dB |", "| a | b | | ≤ 2 | 0.52 dB |", false)]
    [InlineData("| a | b | | ≤ 1 | 0.52 dB |", "| a | b | | ≤ 1 | 0.5 dB |", false)]
    [InlineData("| a | b | | ≤ 1 | 0.52 dB |", "", false)]
    public void Sheets_may_differ_in_the_last_digit_of_a_figure_only(string old, string now, bool same) =>
        Assert.Equal(same, Sheet.Difference(old, now) is null);
}
