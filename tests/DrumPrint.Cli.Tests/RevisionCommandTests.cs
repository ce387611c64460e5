using System.Text.Json;
using DrumPrint.Audio;
using DrumPrint.Dsp;

namespace DrumPrint.Cli.Tests;

/// <summary>What <c>print</c>, <c>diff</c> and <c>store</c> say of a revised session.</summary>
public sealed class RevisionCommandTests : IDisposable
{
    private const string Chain = """
        { "chain": 1, "song": { "title": "Test", "code": "Test", "rate_hz": 48000 },
          "tracks": { "in": "raw/in.wav", "sub": "raw/sub.wav" },
          "buses": { "kick": { "from": { "in": -6, "sub": -5 } }, "squeezed": { "from": { "in": -12 }, "through": [ { "saturate": { } } ] } },
          "prints": [ { "number": 1, "name": "Kick", "bus": "kick" }, { "number": 2, "name": "Squeezed", "bus": "squeezed" } ] }
        """;

    private readonly TemporaryFolder _folder = new();

    public RevisionCommandTests()
    {
        Directory.CreateDirectory(_folder.File("raw"));
        WriteRaw("in", 1);
        WriteRaw("sub", 3);
        File.WriteAllText(_folder.File("a.chain.json"), Chain);
        Assert.Equal(0, Run("print", "a.chain.json", "--quiet").ExitCode);
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Print_says_what_it_rendered_and_why_and_that_the_rest_is_unchanged()
    {
        Revise();

        var run = Run("print", "a.chain.json");

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("2 printed, 1 unchanged", run.Output, StringComparison.Ordinal);
        Assert.Contains("01, 90: kick: sub level −5 → −7 dB (2 dB down)", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void An_edited_print_is_kept_in_no_folder_that_a_link_leads_to()
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }

        Directory.CreateDirectory(_folder.File("elsewhere"));
        Directory.CreateSymbolicLink(_folder.File("prints/changed"), _folder.File("elsewhere"));
        File.AppendAllText(_folder.File("prints/01_Kick_Test_v1.wav"), "edited");
        Revise();

        var run = Run("print", "a.chain.json", "--quiet");

        Assert.Equal(3, run.ExitCode);
        Assert.Contains("changed: nothing can be written there: it is a link, not a folder.", run.Error, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(_folder.File("elsewhere")));
        Assert.EndsWith("edited", File.ReadAllText(_folder.File("prints/01_Kick_Test_v1.wav")), StringComparison.Ordinal);
    }

    [Fact]
    public void Print_says_what_the_change_did_to_the_sound()
    {
        File.WriteAllText(_folder.File("a.chain.json"), Chain.Replace("\"in\": -6, \"sub\": -5", "\"in\": -9, \"sub\": -8", StringComparison.Ordinal));

        var run = Run("print", "a.chain.json");

        Assert.Contains("Beside the prints they replace:", run.Output, StringComparison.Ordinal);
        Assert.Contains("  01: 3.0 LU quieter", run.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("  02:", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void The_table_has_the_prints_that_changed_and_all_of_them_where_that_is_asked()
    {
        Revise();

        var changed = Run("print", "a.chain.json").Output.Split('\n');
        var nothing = Run("print", "a.chain.json").Output;
        var all = Run("print", "a.chain.json", "--all").Output.Split('\n');

        Assert.Equal(["01_Kick", "90_RoughPreBus"], Rows(changed));
        Assert.Contains("The table of the others, too: --all", changed);
        Assert.DoesNotContain("Fed by", nothing, StringComparison.Ordinal);
        Assert.Contains("The table of all: --all", nothing, StringComparison.Ordinal);
        Assert.Equal(["01_Kick", "02_Squeezed", "90_RoughPreBus"], Rows(all));

        static IEnumerable<string> Rows(string[] lines) => lines.SkipWhile(l => !l.StartsWith('─')).Skip(1).TakeWhile(l => l.Length > 0).Select(l => l.Split(' ')[0]);
    }

    [Theory]
    [InlineData("--quiet")]
    [InlineData("--json")]
    public void What_is_gone_is_said_on_standard_error_where_no_table_is_shown(string option)
    {
        Revise();

        var run = Run("print", "a.chain.json", option);

        Assert.Equal(0, run.ExitCode);
        Assert.StartsWith("Overwritten: 01_Kick and 90_RoughPreBus, which sounded different.", run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("Replaced", Run("print", "a.chain.json", option).Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Going_back_to_an_older_version_is_said_on_standard_error_before_the_print()
    {
        File.WriteAllText(_folder.File("a.chain.json"), Chain.Replace("\"code\"", "\"version\": 2, \"code\"", StringComparison.Ordinal));
        Assert.Empty(Run("print", "a.chain.json", "--quiet").Error);
        Revise();

        var run = Run("print", "a.chain.json", "--quiet");

        Assert.Equal(0, run.ExitCode);
        Assert.StartsWith("This chain is version 1 again", run.Error, StringComparison.Ordinal);
        Assert.Contains("kick: sub level −5 → −7 dB (2 dB down)", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_print_under_a_new_name_is_said_to_sound_the_same()
    {
        File.WriteAllText(_folder.File("a.chain.json"), Chain.Replace("\"Squeezed\"", "\"Rasp\"", StringComparison.Ordinal));

        var run = Run("print", "a.chain.json");

        Assert.Contains("2 written anew with the same sound as before, 1 unchanged.", run.Output, StringComparison.Ordinal);
        Assert.Contains("  02: the same sound as 02_Squeezed_Test_v1.wav, under a new name", run.Output, StringComparison.Ordinal);
        Assert.Contains("  90: the same sound as before", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_new_version_with_nothing_changed_is_said_to_sound_the_same()
    {
        File.WriteAllText(_folder.File("a.chain.json"), Chain.Replace("\"code\"", "\"version\": 2, \"code\"", StringComparison.Ordinal));

        var run = Run("print", "a.chain.json");

        Assert.Contains("3 written anew with the same sound as before.", run.Output, StringComparison.Ordinal);
        Assert.Contains("  the same sound as in version 1", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Hearing_is_only_spoken_of_when_there_is_something_new_to_hear()
    {
        Assert.DoesNotContain("Before you listen", Run("print", "a.chain.json").Output, StringComparison.Ordinal);
        Revise();

        Assert.Contains("Before you listen", Run("print", "a.chain.json").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Findings_that_still_stand_are_told_again_in_one_line_each_and_json_has_them_in_full()
    {
        File.WriteAllText(_folder.File("a.chain.json"), Chain.Replace("\"sub\": \"raw/sub.wav\"", "\"sub\": \"raw/sub.wav\", \"spare\": \"raw/in.wav\"", StringComparison.Ordinal));
        var first = Run("print", "a.chain.json");

        var again = Run("print", "a.chain.json");
        using var json = JsonDocument.Parse(Run("print", "a.chain.json", "--json").Output);

        Assert.Equal((1, 1), (first.ExitCode, again.ExitCode));
        Assert.Contains("To look at: Track 'spare' (raw/in.wav) is used by no bus, so nothing of it is heard. Feed it", first.Error, StringComparison.Ordinal);
        Assert.Equal(
            ["Still to look at: Tracks 'in' and 'spare' are the same file, raw/in.wav.", "Still to look at: Track 'spare' (raw/in.wav) is used by no bus, so nothing of it is heard."],
            again.Error.Split('\n').Where(l => l.Contains("to look at", StringComparison.Ordinal)));
        Assert.Equal(2, json.RootElement.GetProperty("findings").GetArrayLength());
    }

    [Fact]
    public void What_stands_of_prints_that_are_left_alone_is_told_again_when_only_others_are_printed()
    {
        File.WriteAllText(_folder.File("a.chain.json"), Chain.Replace("\"in\": -6", "\"in\": 14", StringComparison.Ordinal).Replace("\"in\": -12", "\"in\": -120", StringComparison.Ordinal));
        Run("print", "a.chain.json", "--bits", "32f");

        var again = Run("print", "a.chain.json", "--bits", "32f", "--only", "Kick", "--quiet");

        Assert.Equal(1, again.ExitCode);
        Assert.Contains("To look at: Above 0 dBFS: 01 Kick", again.Error, StringComparison.Ordinal);
        Assert.Contains("Still to look at: 02_Squeezed_Test_v1.wav is silent (peak below −80 dBFS).\n", again.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void That_prints_were_lowered_is_told_to_whoever_asked_for_quiet_too()
    {
        File.WriteAllText(_folder.File("a.chain.json"), Chain.Replace("\"in\": -6", "\"in\": 12", StringComparison.Ordinal).Replace("\"prints\"", "\"output\": { \"over\": \"lower_together\" }, \"prints\"", StringComparison.Ordinal));

        var first = Run("print", "a.chain.json", "--quiet");
        var again = Run("print", "a.chain.json", "--quiet");

        Assert.Matches(@"All prints were lowered together by \d+\.\d dB", first.Error);
        Assert.DoesNotContain("lowered", again.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Print_tells_the_same_as_json()
    {
        Revise();

        var run = Run("print", "a.chain.json", "--json");

        using var json = JsonDocument.Parse(run.Output);
        var prints = json.RootElement.GetProperty("prints").EnumerateArray().ToList();
        Assert.Equal([true, false, true], prints.Select(p => p.GetProperty("rendered").GetBoolean()));
        Assert.Equal("kick: sub level −5 → −7 dB (2 dB down)", prints[0].GetProperty("because")[0].GetString());
        Assert.Equal("01_Kick_Test_v1.wav", prints[0].GetProperty("earlier").GetProperty("file").GetString());
        Assert.False(prints[1].TryGetProperty("earlier", out _));
        Assert.Equal(0, json.RootElement.GetProperty("store_notes").GetArrayLength());
    }

    [Fact]
    public void Print_that_finds_nothing_changed_says_so_and_anew_renders_all()
    {
        Assert.Contains("Nothing was printed", Run("print", "a.chain.json").Output, StringComparison.Ordinal);
        Assert.Contains("3 written anew with the same sound as before.", Run("print", "a.chain.json", "--anew").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Print_without_store_keeps_nothing()
    {
        Directory.Delete(_folder.File(".drumprint"), recursive: true);

        var run = Run("print", "a.chain.json", "--no-store");

        Assert.Equal(0, run.ExitCode);
        Assert.False(Directory.Exists(_folder.File(".drumprint")));
        Assert.DoesNotContain(" printed", run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("0")]
    [InlineData("-1")]
    [InlineData("much")]
    public void A_store_of_no_size_is_a_usage_error(string size)
    {
        var run = Run("print", "a.chain.json", "--store-gb", size);

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("--store-gb", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void To_keep_nothing_and_to_fill_the_store_at_once_is_a_usage_error()
    {
        var run = Run("print", "a.chain.json", "--no-store", "--anew");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("give one of them", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_store_that_cannot_be_used_is_said_on_standard_error_and_the_print_is_done()
    {
        Directory.Delete(_folder.File(".drumprint"), recursive: true);
        File.WriteAllText(_folder.File(".drumprint"), "");

        var run = Run("print", "a.chain.json");

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("could not be used", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Print_takes_the_folder_of_the_only_chain_and_asks_where_there_are_two()
    {
        var one = Run("print", ".");
        File.Copy(_folder.File("a.chain.json"), _folder.File("b.chain.json"));
        var two = Run("print", ".");
        var prints = Run("print", "prints");

        Assert.Equal(0, one.ExitCode);
        Assert.Contains("Nothing was printed", one.Output, StringComparison.Ordinal);
        Assert.Equal(2, two.ExitCode);
        Assert.StartsWith(". holds 2 chains: a.chain.json and b.chain.json. Name the one to print, such as: drumprint print ", two.Error, StringComparison.Ordinal);
        Assert.Equal(2, prints.ExitCode);
        Assert.StartsWith("prints holds prints and no chain file. To make them again and compare: drumprint reprint prints", prints.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_print_that_was_edited_is_named_and_kept_by_a_print_without_a_store()
    {
        var print = _folder.File("prints/01_Kick_Test_v1.wav");
        var bytes = File.ReadAllBytes(print);
        bytes[^100] ^= 1;
        File.WriteAllBytes(print, bytes);

        var run = Run("print", "a.chain.json", "--no-store");

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("Changed or damaged after printing: 01_Kick.", run.Output.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.Equal(bytes, File.ReadAllBytes(_folder.File("prints/changed/01_Kick_Test_v1.wav")));
    }

    [Fact]
    public void Store_list_begins_with_a_summary_of_at_most_five_lines()
    {
        var lines = Run("store", "list").Output.Split('\n').TakeWhile(l => !l.Contains("Channels", StringComparison.Ordinal)).Select(l => l.TrimEnd()).Where(l => l.Length > 0).ToList();

        Assert.InRange(lines.Count, 3, 5);
        Assert.Matches(@"^4 entries, \d+\.\d KB, in ", lines[0]);
        Assert.StartsWith("  sound of 1 bus, ", lines[1], StringComparison.Ordinal);
        Assert.StartsWith("  figures of 3 prints, ", lines[2], StringComparison.Ordinal);
    }

    [Fact]
    public void Store_tells_of_leftovers_and_clears_them()
    {
        File.WriteAllText(_folder.File(".drumprint/prints/.drumprint-0123456789abcdef01234567.partial"), "half");

        Assert.Contains("1 file more, 4 B, that no print uses", Run("store", "list").Output.ReplaceLineEndings(" "), StringComparison.Ordinal);
        var verify = Run("store", "verify");
        Assert.Equal(0, verify.ExitCode);
        Assert.Contains("Belongs to no entry: prints", verify.Output, StringComparison.Ordinal);
        Assert.Contains("5 files dropped", Run("store", "clear").Output, StringComparison.Ordinal);
        Assert.DoesNotContain("no print uses", Run("store", "list").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Store_lists_verifies_and_clears()
    {
        var list = Run("store", "list");
        Assert.Equal(0, list.ExitCode);
        Assert.Contains("squeezed", list.Output, StringComparison.Ordinal);
        Assert.Contains("4 entries", list.Output, StringComparison.Ordinal);

        var signal = Assert.Single(Directory.GetFiles(_folder.File(".drumprint/signals")));
        var bytes = File.ReadAllBytes(signal);
        bytes[bytes.Length / 2] ^= 1;
        File.WriteAllBytes(signal, bytes);
        var verify = Run("store", "verify", "a.chain.json");
        Assert.Equal(1, verify.ExitCode);
        Assert.Contains("Damaged and dropped: squeezed", verify.Output, StringComparison.Ordinal);
        Assert.Equal(0, Run("store", "verify", _folder.Path).ExitCode);

        Assert.Contains("3 files dropped", Run("store", "clear").Output, StringComparison.Ordinal);
        Assert.Contains("holds nothing", Run("store", "list").Output, StringComparison.Ordinal);
        Assert.Equal(3, Run("store", "list", "nowhere").ExitCode);
    }

    [Fact]
    public void Diff_ends_with_0_for_the_same_1_for_a_difference_and_3_for_a_side_that_is_missing()
    {
        File.Copy(_folder.File("a.chain.json"), _folder.File("b.chain.json"));
        var same = Run("diff", "a.chain.json", "b.chain.json");
        Revise();
        var other = Run("diff", "b.chain.json", "a.chain.json");
        var trouble = Run("diff", "a.chain.json", "nowhere.ticket.json");

        Assert.Equal(0, same.ExitCode);
        Assert.Contains("Nothing changed in what both sides hold", same.Output, StringComparison.Ordinal);
        Assert.Equal(1, other.ExitCode);
        Assert.Contains("kick: sub level −5 → −7 dB (2 dB down)", other.Output, StringComparison.Ordinal);
        Assert.Contains("reaches 01 Kick, 90 RoughPreBus", other.Output, StringComparison.Ordinal);
        Assert.Equal(3, trouble.ExitCode);
        Assert.Contains("nowhere.ticket.json", trouble.Error, StringComparison.Ordinal);
        Assert.Empty(trouble.Output);
    }

    [Fact]
    public void Only_a_command_that_writes_says_that_nothing_was_written()
    {
        File.WriteAllText(_folder.File("faulty.chain.json"), Chain.Replace("\"sub\": -5", "\"sup\": -5", StringComparison.Ordinal));

        var diff = Run("diff", "a.chain.json", "faulty.chain.json");
        var print = Run("print", "faulty.chain.json");

        Assert.Equal((2, 2), (diff.ExitCode, print.ExitCode));
        Assert.Contains("One thing to mend in the chain file.", diff.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("written", diff.Error, StringComparison.Ordinal);
        Assert.Contains("One thing to mend in the chain file; nothing was written.", print.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Diff_tells_what_was_measured_as_table_and_as_json()
    {
        Revise();
        Assert.Equal(0, Run("print", "a.chain.json", "--quiet", "--out", "revised").ExitCode);

        var screen = Run("diff", "prints", "revised");
        using var json = JsonDocument.Parse(Run("diff", "prints", "revised", "--json").Output);

        Assert.Contains("1 other print holds the same samples", screen.Output, StringComparison.Ordinal);
        Assert.False(json.RootElement.GetProperty("equal").GetBoolean());
        Assert.Equal("01 Kick", json.RootElement.GetProperty("changes")[0].GetProperty("reaches")[0].GetString());
        var kick = json.RootElement.GetProperty("measured")[0];
        Assert.False(kick.GetProperty("same_audio").GetBoolean());
        Assert.True(kick.GetProperty("a").GetProperty("peak_dbfs").GetDouble() > kick.GetProperty("b").GetProperty("peak_dbfs").GetDouble());
    }

    private void Revise() => File.WriteAllText(_folder.File("a.chain.json"), Chain.Replace("\"sub\": -5", "\"sub\": -7", StringComparison.Ordinal));

    private void WriteRaw(string name, int seed)
    {
        var samples = new double[1][];
        samples[0] = [.. Enumerable.Range(0, 4800).Select(n => ((n * 7919 * seed) % 1000 / 2000.0) - 0.25)];
        using var writer = WaveWriter.Create(_folder.File($"raw/{name}.wav"), new AudioFormat(48000, 1), SampleEncoding.Float32, null, 4800);
        writer.Write(new AudioBlock(samples, 0, 4800));
        writer.Finish(4800);
        writer.Publish();
    }

    private ProgramRun Run(params string[] arguments) => ProgramRun.Of(_folder.Path, arguments);
}
