namespace DrumPrint.Conformance.Tests;

/// <summary>Every line of docs/conformance.md as a test.</summary>
public sealed class ConformanceTests
{
    public static TheoryData<string> Checks => [.. AllChecks.Flat.Select(c => c.ToString())];

    [Theory]
    [MemberData(nameof(Checks))]
    public void Every_bar_is_met_or_marked_as_missed_with_the_reason(string name)
    {
        var check = AllChecks.Flat.Single(c => c.ToString() == name);

        Assert.True(check.IsMet == (check.Missed is null), $"{name}: {check.Bar.Shown(check.Measured)}, expected {check.Bar.Expected} {check.Bar.Tolerance}");
    }

    [Fact]
    public void The_sheet_says_what_is_measured_today() =>
        Assert.Null(Sheet.Difference(File.ReadAllText(Repository.File("docs", "conformance.md")), Sheet.Text()));

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
