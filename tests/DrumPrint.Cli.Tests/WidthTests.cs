namespace DrumPrint.Cli.Tests;

/// <summary>What the program shows on a narrow screen, and where nobody says how wide it is.</summary>
[Collection(DemoGroup.Name)]
public sealed class WidthTests(DemoFolder demo)
{
    private const string Wide = "1000";
    private const string Narrow = "80";

    [Theory]
    [InlineData("print SlowFerry --all")]
    [InlineData("measure SlowFerry/prints")]
    [InlineData("measure SlowFerry/prints/01_Kick_SlowFerry_v1.wav")]
    [InlineData("measure --hits SlowFerry/raw/04_SnareTop.wav SlowFerry/raw/06_SnareBottom.wav")]
    [InlineData("store list SlowFerry")]
    [InlineData("check SlowFerry")]
    [InlineData("processors")]
    [InlineData("processors compress")]
    public void No_word_is_broken_and_no_line_is_longer_for_want_of_a_break(string command)
    {
        var arguments = command.Split(' ');
        var wide = Words(ProgramRun.Wrapped(demo.Path, Wide, arguments).Output).ToHashSet(StringComparer.Ordinal);

        var narrow = ProgramRun.Wrapped(demo.Path, Narrow, arguments).Output;

        Assert.NotEmpty(narrow);
        Assert.All(Words(narrow), word => Assert.Contains(word, wide));
        Assert.All(narrow.Split('\n'), line => Assert.True(line.Length <= 80 || !line.Trim().Contains(' ', StringComparison.Ordinal), line));
    }

    [Fact]
    public void The_table_of_prints_keeps_names_levels_and_feeds_at_80_columns()
    {
        var run = ProgramRun.Wrapped(demo.Path, Narrow, "print", "SlowFerry", "--all");

        Assert.Contains(" 15_Front (extra) ", $" {string.Join(' ', run.Output.Split('\n').Where(l => l.StartsWith("15", StringComparison.Ordinal)))} ", StringComparison.Ordinal);
        Assert.Contains("Fed by (dB)", run.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("Not shown", run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("wide")]
    [InlineData("12")]
    [InlineData("99999999999")]
    public void Without_a_sane_word_of_the_width_a_pipe_gets_100_columns(string? columns)
    {
        var lines = ProgramRun.Wrapped(demo.Path, columns, "processors", "compress").Output.Split('\n');

        Assert.InRange(lines.Max(l => l.Length), 81, 100);
    }

    [Fact]
    public void News_stand_above_the_table()
    {
        Assert.InRange(demo.Run.Output.IndexOf("18 files of ", StringComparison.Ordinal), 0, demo.Run.Output.IndexOf("Fed by", StringComparison.Ordinal));
    }

    // Rules and the line that says what there was no room for are no words of a wide screen.
    private static IEnumerable<string> Words(string output) =>
        string.Join('\n', output.Split("Not shown, for want of room").Select((part, n) => n == 0 ? part : part[(part.IndexOf("too.", StringComparison.Ordinal) + 4)..]))
            .Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries)
            .Where(w => !w.All(c => c == '─'));
}
