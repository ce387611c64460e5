using System.Text.Json;
using System.Text.RegularExpressions;
using DrumPrint.Cli.Commands;

namespace DrumPrint.Cli.Tests;

public sealed class CommandLineTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    public static TheoryData<string> CommandNames => [.. Commands(CommandLine.Root(), "")];

    [Fact]
    public void Help_names_every_command_with_what_it_does_and_every_exit_code()
    {
        var run = Run("--help");

        Assert.Equal(0, run.ExitCode);
        Assert.Empty(run.Error);
        var lines = run.Output.ReplaceLineEndings("\n").Split('\n');
        var commands = lines.SkipWhile(l => l != "Commands:").Skip(1).TakeWhile(l => l.Length > 0).Where(l => l[2] != ' ').Select(l => l.Trim().Split(' ')[0]);
        var codes = lines.SkipWhile(l => l != "Exit codes:").Skip(1).TakeWhile(l => l.Length > 0).Select(l => l.Trim().Split(' ')[0]);
        Assert.Equal(CommandLine.Root().Subcommands.Select(c => c.Name), commands);
        Assert.Equal(["0", "1", "2", "3", "70", "130"], codes);
        Assert.All(CommandLine.Root().Subcommands, c => Assert.False(string.IsNullOrWhiteSpace(c.Description)));
    }

    [Theory]
    [MemberData(nameof(CommandNames))]
    public void Every_command_has_help_that_wants_nothing_else(string command)
    {
        foreach (var ask in new[] { "--help", "-h" })
        {
            var run = Run([.. command.Split(' '), ask]);

            Assert.Equal(0, run.ExitCode);
            Assert.Empty(run.Error);
            Assert.Contains("Usage:", run.Output, StringComparison.Ordinal);
            Assert.Contains($" {command} ", run.Output, StringComparison.Ordinal);
        }
    }

    [Theory]
    [MemberData(nameof(CommandNames))]
    public void Every_help_ends_with_two_examples_that_the_program_understands(string command)
    {
        var lines = Run([.. command.Split(' '), "--help"]).Output.ReplaceLineEndings("\n").TrimEnd().Split('\n');

        Assert.Equal("Examples:", lines[^3]);
        Assert.All(lines[^2..], line =>
        {
            Assert.StartsWith($"  drumprint {command}", line, StringComparison.Ordinal);
            Assert.Empty(CommandLine.Root().Parse(line.Trim()["drumprint ".Length..]).Errors);
        });
    }

    [Fact]
    public void Help_as_a_command_says_what_help_as_an_option_says()
    {
        Assert.Equal(Run("--help").Output, Run("help").Output);
        Assert.Equal(Run("print", "--help").Output, Run("help", "print").Output);
        Assert.Equal(Run("store", "list", "--help").Output, Run("help", "store", "list").Output);
        var wrong = Run("help", "prnt");
        Assert.Equal(2, wrong.ExitCode);
        Assert.Contains("There is no command 'prnt'", wrong.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Version_is_the_engine_s_with_the_build_beside_it()
    {
        var run = ProgramRun.OfProcess(_folder.Path, "--version");

        Assert.Matches($@"^{Regex.Escape(EngineVersion.Text)} \([a-z0-9.-]+, on the \.NET runtime, built (by hand|from \S+)\)$", run.Output.Trim());
    }

    [Fact]
    public void The_schema_is_json_that_names_its_dialect()
    {
        var run = Run("schema");

        Assert.Equal(0, run.ExitCode);
        using var schema = JsonDocument.Parse(run.Output);
        Assert.Equal("https://json-schema.org/draft/2020-12/schema", schema.RootElement.GetProperty("$schema").GetString());
    }

    [Fact]
    public void The_ticket_s_schema_names_its_prints()
    {
        var run = Run("schema", "--ticket");

        Assert.Equal(0, run.ExitCode);
        using var schema = JsonDocument.Parse(run.Output);
        Assert.True(schema.RootElement.GetProperty("properties").TryGetProperty("prints", out _));
    }

    [Fact]
    public void Processors_lists_all_and_explains_one()
    {
        var all = Run("processors");
        var one = Run("processors", "compress");

        Assert.Equal(0, all.ExitCode);
        Assert.Contains("convolve", all.Output, StringComparison.Ordinal);
        Assert.Equal(0, one.ExitCode);
        Assert.Contains("threshold_db", one.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("comp", "compress")]
    [InlineData("gaet", "gate")]
    [InlineData("Tape", "tape")]
    [InlineData("convolver", "convolve")]
    public void An_unknown_processor_is_answered_with_the_nearest_and_no_other(string asked, string nearest)
    {
        var run = Run("processors", asked);

        Assert.Equal(2, run.ExitCode);
        Assert.Equal($"There is no processor '{asked}'. Did you mean '{nearest}'?", run.Error.Trim());
    }

    [Fact]
    public void A_processor_like_no_other_is_answered_with_all_of_them()
    {
        var run = Run("processors", "zzzzzz");

        Assert.Equal(2, run.ExitCode);
        Assert.Equal($"There is no processor 'zzzzzz'. There are {string.Join(", ", DrumPrint.Dsp.Processors.Catalogue.All.Select(p => p.Key).Distinct())}.", run.Error.Trim());
    }

    [Theory]
    [InlineData("print", "nowhere.chain.json")]
    [InlineData("reprint", "nowhere.chain.json")]
    [InlineData("reprint", "nowhere.ticket.json")]
    [InlineData("reprint", "nowhere.wav")]
    [InlineData("reprint", "nowhere")]
    [InlineData("diff", "nowhere.chain.json", "nowhere.wav")]
    [InlineData("diff", "nowhere", "nowhere")]
    [InlineData("compare", "nowhere.chain.json", "--without", "tape")]
    [InlineData("compare", "nowhere", "nowhere", "nowhere")]
    [InlineData("measure", "nowhere.wav")]
    [InlineData("store", "list", "nowhere")]
    public void Whatever_the_command_a_missing_file_ends_with_3(params string[] arguments)
    {
        var run = Run(arguments);

        Assert.Equal(3, run.ExitCode);
        Assert.Contains("nowhere", run.Error, StringComparison.Ordinal);
        Assert.Contains("there is no such file", run.Error, StringComparison.Ordinal);
        Assert.Empty(run.Output);
    }

    [Fact]
    public void A_missing_chain_file_is_a_file_error_without_a_stack_trace()
    {
        var run = Run("print", "nowhere.chain.json");

        Assert.Equal(3, run.ExitCode);
        Assert.Contains("nowhere.chain.json", run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", run.Error, StringComparison.Ordinal);
        Assert.Empty(run.Output);
    }

    [Theory]
    [InlineData("--loudness: there is no such option.\nNothing was done. See: drumprint print --help\n", "print", "x.json", "--loudness")]
    [InlineData("--thread: there is no such option. Did you mean --threads?\nNothing was done. See: drumprint print --help\n", "print", "x.json", "--thread", "2")]
    [InlineData("prnt: there is no such command. Did you mean print?\nNothing was done. See: drumprint --help\n", "prnt", "x.json")]
    [InlineData("lst: there is no such command. Did you mean list?\nNothing was done. See: drumprint store --help\n", "store", "lst")]
    [InlineData("song.json: this is one word too many (put a name with spaces in quotes).\nNothing was done. See: drumprint reprint --help\n", "reprint", "my", "song.json")]
    public void A_mistyped_command_line_is_answered_in_two_lines(string expected, params string[] words)
    {
        var run = Run(words);

        Assert.Equal(2, run.ExitCode);
        Assert.Equal(expected, run.Error.ReplaceLineEndings("\n"));
        Assert.Empty(run.Output);
    }

    [Fact]
    public void Without_a_word_the_program_tells_three_things_to_do_next()
    {
        var run = Run();

        Assert.Equal((0, ""), (run.ExitCode, run.Error));
        Assert.Equal(["demo", "begin", "help"], run.Output.Split('\n').Where(l => l.StartsWith("  drumprint ", StringComparison.Ordinal)).Select(l => l.Split(' ', StringSplitOptions.RemoveEmptyEntries)[1]));
        Assert.DoesNotContain("Press a key", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_no_chain_file_is_named_with_what_may_have_been_meant()
    {
        File.WriteAllText(_folder.File("Song.chain.json"), "{}");
        File.WriteAllText(_folder.File("take.wav"), "RIFFxxxxWAVE");

        Assert.Contains("Did you mean Song.chain.json?", Run("print", "song.chain.jsn").Error, StringComparison.Ordinal);
        Assert.Contains("Song.chain.json:1:1: ", Run("print", ".").Error, StringComparison.Ordinal);
        Assert.Contains("this is a sound file (WAV)", Run("print", "take.wav").Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_without_a_store_is_not_called_an_empty_store()
    {
        var run = Run("store", "list");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("There is no store", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_broken_chain_is_named_by_line_and_nothing_is_written()
    {
        File.WriteAllText(_folder.File("a.chain.json"), "{ \"chain\": 1,\n  \"songg\": { } }");

        var run = Run("print", "a.chain.json");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("a.chain.json:2:3", run.Error, StringComparison.Ordinal);
        Assert.Equal(["a.chain.json"], Directory.EnumerateFileSystemEntries(_folder.Path).Select(Path.GetFileName));
    }

    [Fact]
    public void Twelve_mistakes_and_five_missing_files_are_told_in_one_run_and_no_file_is_made()
    {
        var chains = Repository.File("fixtures", "chains");
        Directory.CreateDirectory(_folder.File("raw"));
        File.Copy(Path.Combine(chains, "twelve-mistakes.chain.json"), _folder.File("twelve-mistakes.chain.json"));
        File.Copy(Path.Combine(chains, "raw", "tempo.json"), _folder.File("raw/tempo.json"));
        var before = Directory.GetFileSystemEntries(_folder.Path, "*", SearchOption.AllDirectories);

        var run = Run("print", "twelve-mistakes.chain.json");

        Assert.Equal(2, run.ExitCode);
        Assert.Empty(run.Output);
        Assert.Equal(12 + 5, run.Error.Split('\n').Count(line => System.Text.RegularExpressions.Regex.IsMatch(line, @"^twelve-mistakes\.chain\.json:\d+:\d+: ")));
        Assert.Equal(before, Directory.GetFileSystemEntries(_folder.Path, "*", SearchOption.AllDirectories));
    }

    [Theory]
    [InlineData("bash")]
    [InlineData("zsh")]
    [InlineData("fish")]
    [InlineData("powershell")]
    public void Completions_come_for_each_shell(string shell)
    {
        var run = Run("completions", shell);

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("[suggest:", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void The_suggestions_behind_completion_name_the_commands()
    {
        var run = Run("[suggest:12]", "drumprint pr");

        Assert.Contains("print", run.Output, StringComparison.Ordinal);
    }

    private static IEnumerable<string> Commands(System.CommandLine.Command parent, string before) => parent.Subcommands.SelectMany(c => Commands(c, $"{before}{c.Name} ").Prepend(before + c.Name));

    private ProgramRun Run(params string[] arguments) => ProgramRun.Of(_folder.Path, arguments);
}
