using DrumPrint.Cli.Output;
using Spectre.Console;

namespace DrumPrint.Cli.Tests;

public sealed class VisibleTests
{
    [Theory]
    [InlineData("Überkick 🥁 — −3 dB", "Überkick 🥁 — −3 dB")]
    [InlineData("\u001b[31m", @"\u001B[31m")]
    [InlineData("a\tb\r\nc", @"a\u0009b\u000D\u000Ac")]
    [InlineData("a\u202Eb\u2066c\u200Fd\u061Ce", @"a\u202Eb\u2066c\u200Fd\u061Ce")]
    [InlineData("a\u2028b\u0085c\uFEFF", @"a\u2028b\u0085c\uFEFF")]
    [InlineData("\U000E0041x", @"\uE0041x")]
    [InlineData("👩\u200D🎤", "👩\u200D🎤")]
    public void What_cannot_be_seen_becomes_its_number(string text, string shown) => Assert.Equal(shown, Visible.Line(text));

    [Fact]
    public void Half_a_character_becomes_its_number() => Assert.Equal(@"a\uD83Eb", Visible.Line("a\uD83Eb"));

    [Fact]
    public void Lines_stay_lines_where_they_are_meant() => Assert.Equal("a\nb\\u000Dc", Visible.Lines("a\nb\rc"));

    [Fact]
    public void A_writer_passes_characters_one_by_one_and_whole()
    {
        using var text = new StringWriter();
        using var writer = new VisibleWriter(text);

        foreach (var c in "🥁\u001b\n")
        {
            writer.Write(c);
        }

        writer.Write("x\u0007\r\ny");

        Assert.Equal("🥁\\u001B\nx\\u0007\ny", text.ToString());
    }

    [Fact]
    public void On_a_terminal_with_colours_a_cell_cannot_steer_either()
    {
        using var text = new StringWriter();
        var console = AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(text), Ansi = AnsiSupport.Yes, ColorSystem = ColorSystemSupport.TrueColor });
        console.Pipeline.Attach(new VisibleHook());

        console.Write(new Table().AddColumn("[red]a[/]").AddRow(Markup.Escape("b\u001b]0;owned\u0007\u202Ec")));

        Assert.Contains("\u001b[", text.ToString(), StringComparison.Ordinal); // its own colours
        Assert.Contains("b\uFFFD]0;owned\uFFFD\uFFFDc", text.ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("\u001b]", text.ToString(), StringComparison.Ordinal);
    }
}
