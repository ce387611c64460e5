using System.Text.Json;

namespace DrumPrint.Cli.Tests;

/// <summary>One demo session for all of these, which they may add to.</summary>
public sealed class DemoFolder : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public DemoFolder() => MadeDemo.CopyTo(_folder.Path);

    internal ProgramRun Run => MadeDemo.Run;

    public string Path => _folder.Path;

    public string Prints => System.IO.Path.Combine(_folder.Path, "SlowFerry", "prints");

    public void Dispose() => _folder.Dispose();
}

[Collection(DemoGroup.Name)]
public sealed class DemoCommandTests(DemoFolder demo)
{
    private static readonly string[] Expected =
    [
        "01_Kick", "02_Toms", "03_Snare", "04_SnareGate", "05_Hat", "06_OH", "07_RoomNear", "08_RoomFar", "09_CrushedRoom", "10_SnareRasp", "11_KneeRasp",
        "12_Impact", "13_Stairwell", "14_Perc", "15_Front", "90_RoughPreBus", "91_RoughWithBus", "92_Click",
    ];

    [Fact]
    public void The_demo_prints_without_findings()
    {
        Assert.True(demo.Run.ExitCode == 0, demo.Run.Error);
        Assert.Equal(
            Expected.Select(n => $"{n}_SlowFerry_v1.wav"),
            Directory.GetFiles(demo.Prints, "*.wav").Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.Equal(21, Directory.GetFiles(Path.Combine(demo.Path, "SlowFerry", "raw"), "*.wav").Length);
    }

    [Fact]
    public void The_screen_tells_of_each_print_the_null_and_the_ears()
    {
        Assert.All(Expected, name => Assert.Contains(name, demo.Run.Output, StringComparison.Ordinal));
        Assert.Contains("Prints add up to the rough", demo.Run.Output, StringComparison.Ordinal);
        Assert.Contains("turn the volume down", demo.Run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_chain_that_was_changed_and_files_of_others_are_never_replaced()
    {
        var own = Path.Combine(demo.Path, "own");
        MadeDemo.CopySessionTo(own, isPrinted: false);
        var chain = Path.Combine(own, "SlowFerry.chain.json");
        File.AppendAllText(chain, "// mine");
        Directory.CreateDirectory(Path.Combine(own, "prints"));
        var foreign = Path.Combine(own, "prints", "01_Kick_SlowFerry_v1.wav");
        File.WriteAllText(foreign, "RIFF of somebody else");

        var again = ProgramRun.Of(demo.Path, "demo", own);
        var print = ProgramRun.Of(demo.Path, "print", chain);

        Assert.Equal(2, again.ExitCode);
        Assert.Contains("has been changed since demo wrote it", again.Error, StringComparison.Ordinal);
        Assert.EndsWith("// mine", File.ReadAllText(chain), StringComparison.Ordinal);
        Assert.Equal(2, print.ExitCode);
        Assert.Contains("was not made by DrumPrint", print.Error, StringComparison.Ordinal);
        Assert.Equal("RIFF of somebody else", File.ReadAllText(foreign));
    }

    [Fact]
    public void An_edited_take_is_kept_and_named_on_standard_error()
    {
        var take = Path.Combine(demo.Path, "edited", "raw", "04_SnareTop.wav");
        Directory.CreateDirectory(Path.GetDirectoryName(take)!);
        File.Copy(Path.Combine(demo.Path, "SlowFerry", "raw", "05_SnareVent.wav"), take);

        var run = ProgramRun.Of(demo.Path, "demo", "edited", "--no-print", "--quiet");

        Assert.Equal(0, run.ExitCode);
        Assert.StartsWith("raw/04_SnareTop.wav is not as the demo writes it", run.Error, StringComparison.Ordinal);
        Assert.Equal(File.ReadAllBytes(Path.Combine(demo.Path, "SlowFerry", "raw", "05_SnareVent.wav")), File.ReadAllBytes(take));
    }

    [Fact]
    public void Printing_again_gives_the_same_bytes_and_clean_json()
    {
        var chain = Path.Combine(demo.Path, "SlowFerry", "SlowFerry.chain.json");

        var run = ProgramRun.Of(demo.Path, "print", chain, "--out", "again", "--threads", "1", "--json");

        Assert.Equal(0, run.ExitCode);
        Assert.Empty(run.Error);
        using var report = JsonDocument.Parse(run.Output);
        foreach (var print in report.RootElement.GetProperty("prints").EnumerateArray())
        {
            var file = print.GetProperty("file").GetString()!;
            Assert.Equal(File.ReadAllBytes(Path.Combine(demo.Prints, file)), File.ReadAllBytes(Path.Combine(demo.Path, "again", file)));
        }
    }

    [Fact]
    public void An_excerpt_by_bars_goes_to_a_folder_of_its_own()
    {
        var chain = Path.Combine(demo.Path, "SlowFerry", "SlowFerry.chain.json");

        var run = ProgramRun.Of(demo.Path, "print", chain, "--only", "Kick", "--from", "bar22", "--to", "bar23", "--quiet");

        Assert.True(run.ExitCode == 0, run.Error);
        Assert.Empty(run.Output);
        Assert.Equal(["01_Kick_SlowFerry_v1_bar22-bar23.wav"], Directory.GetFiles(Path.Combine(demo.Path, "SlowFerry", "excerpt")).Select(Path.GetFileName));
    }

    [Fact]
    public async Task Being_told_to_stop_ends_with_130_and_leaves_no_file()
    {
        if (OperatingSystem.IsWindows())
        {
            return; // no way to send it to another process there
        }

        var chain = Path.Combine(demo.Path, "SlowFerry", "SlowFerry.chain.json");
        var target = Path.Combine(demo.Path, "stopped");
        var start = new System.Diagnostics.ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "drumprint.dll"), "print", chain, "--out", target])
        {
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        };
        using var process = System.Diagnostics.Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync();
        while (!process.HasExited && (!Directory.Exists(target) || Directory.GetFiles(target).Length == 0))
        {
            await Task.Delay(5);
        }

        // Ctrl-C goes the same way, but a process started in the background may have been told to ignore that one.
        using (var kill = System.Diagnostics.Process.Start("kill", ["-TERM", process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]))
        {
            await kill.WaitForExitAsync();
        }

        await process.WaitForExitAsync();

        Assert.Equal(130, process.ExitCode);
        Assert.Contains("Stopped", await error, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(target));
    }
}
