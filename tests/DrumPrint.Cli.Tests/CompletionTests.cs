namespace DrumPrint.Cli.Tests;

/// <summary>What completion offers of a chain.</summary>
public sealed class CompletionTests : IDisposable
{
    private const string Chain = """
        { "chain": 1, "song": { "title": "T", "code": "T", "rate_hz": 48000 },
          "tracks": { "kick in": "in.wav", "room": "room.wav" },
          "buses": { "kick": { "from": { "kick in": 0 } }, "crushed room": { "from": { "room": 0 }, "through": [ { "compress": { } } ] } },
          "prints": [ { "number": 1, "name": "Kick", "bus": "kick" }, { "number": 2, "name": "CrushedRoom", "bus": "crushed room" } ] }
        """;

    private readonly TemporaryFolder _folder = new();

    public CompletionTests() => File.WriteAllText(_folder.File("a.chain.json"), Chain);

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("drumprint print a.chain.json --only ", "CrushedRoom", "Kick", "RoughPreBus")]
    [InlineData("drumprint print . --only Cru", "CrushedRoom")]
    [InlineData("drumprint compare a.chain.json --print ", "CrushedRoom", "Kick", "RoughPreBus")]
    [InlineData("drumprint compare a.chain.json --without ", "crushed room", "crushed room/compress", "crushed room/room", "kick", "kick in", "kick/kick in", "room")]
    [InlineData("drumprint align a.chain.json --apply ", "kick in", "room")]
    public void An_option_is_completed_with_the_chains_own_names(string line, params string[] expected) => Assert.Equal(expected, Suggested(line));

    [Theory]
    [InlineData("drumprint print nowhere.chain.json --only ")]
    [InlineData("drumprint print broken.chain.json --only ")]
    [InlineData("drumprint compare in.wav --print ")]
    public void What_is_no_sound_chain_offers_no_name_and_says_nothing(string line)
    {
        File.WriteAllText(_folder.File("broken.chain.json"), Chain[..^3]);
        File.WriteAllText(_folder.File("in.wav"), "RIFF");

        Assert.DoesNotContain("Kick", Suggested(line));
    }

    // bash expands what compgen -W is given, and a chain from somebody else may call a print anything.
    [Fact]
    public void The_script_for_bash_expands_no_name_of_a_chain() =>
        Assert.DoesNotContain("compgen -W", ProgramRun.Of(_folder.Path, "completions", "bash").Output, StringComparison.Ordinal);

    [Fact]
    public void Bash_completes_a_name_with_a_space_in_it_as_one_word()
    {
        if (!File.Exists("/bin/bash"))
        {
            return;
        }

        var script = ProgramRun.Of(_folder.Path, "completions", "bash").Output;
        var marker = _folder.File("marker");
        var typed = $$"""
            drumprint() { printf '%s\n' 'crushed room' 'crushed $(touch {{marker}})' 'kick'; }
            {{script}}
            COMP_WORDS=(drumprint compare a.chain.json --without cru); COMP_CWORD=4; COMP_LINE="x"; COMP_POINT=1
            _drumprint
            printf '%s\n' "${COMPREPLY[@]}"
            """;

        using var bash = System.Diagnostics.Process.Start(new System.Diagnostics.ProcessStartInfo("/bin/bash", ["-c", typed]) { RedirectStandardOutput = true })!;
        var offered = bash.StandardOutput.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries);
        bash.WaitForExit();

        Assert.Equal(@"crushed\ room", offered[0]);
        Assert.Equal(2, offered.Length);
        Assert.False(File.Exists(marker));
    }

    private string[] Suggested(string line)
    {
        var run = ProgramRun.Of(_folder.Path, $"[suggest:{line.Length}]", line);
        Assert.Empty(run.Error);
        return [.. run.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(l => l.TrimEnd('\r')).Where(l => !l.StartsWith('-'))];
    }
}
