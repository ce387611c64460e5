namespace DrumPrint.Cli.Tests;

/// <summary>What a shell may hand over: empty names, bytes that are no text, an output that is full.</summary>
public sealed class BareShellTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("begin", "")]
    [InlineData("measure", "")]
    [InlineData("diff", "prints", "")]
    [InlineData("print", "a.chain.json", "--out", "")]
    [InlineData("print", "a.chain.json", "--out=")]
    public void An_empty_name_is_told_and_nothing_is_done(params string[] command)
    {
        var run = ProgramRun.Of(_folder.Path, command);

        Assert.Equal(ExitCode.Usage, run.ExitCode);
        Assert.Contains("is empty, perhaps by a variable that is not set", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_name_of_bytes_that_are_no_text_is_refused()
    {
        var run = ProgramRun.Of(_folder.Path, "print", "a.chain.json", "--out", "zz\uFFFD");

        Assert.Equal(ExitCode.Usage, run.ExitCode);
        Assert.Contains("bytes that are no UTF-8", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("drumprint --version >/dev/full", 3)]
    [InlineData("drumprint --help >&-", 3)]
    [InlineData("drumprint nonsense 2>/dev/full", 2)]
    [InlineData("drumprint store list . 2>/dev/full", 2)]
    public void A_full_or_closed_output_ends_the_program_in_order(string line, int code)
    {
        if (!File.Exists("/dev/full"))
        {
            return;
        }

        Assert.Equal(code, ProgramRun.OfShell(_folder.Path, line).ExitCode);
    }

    [Fact]
    public void A_closed_window_stops_a_print_and_leaves_nothing_half_made()
    {
        if (!File.Exists("/dev/full"))
        {
            return;
        }

        MadeDemo.CopySessionTo(_folder.Path, isPrinted: false);

        var run = ProgramRun.OfShell(_folder.Path, "drumprint print . --no-store --quiet & until [ -e prints/.drumprint.lock ]; do sleep 0.02; done; kill -HUP $!; wait $!");

        Assert.True(run.ExitCode == ExitCode.Cancelled, $"{run.ExitCode}: {run.Error}");
        Assert.DoesNotContain(Directory.GetFileSystemEntries(_folder.File("prints")), f => Path.GetFileName(f).StartsWith(".drumprint", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("demo made --no-print", 300)]
    [InlineData("print . --no-store --quiet", 2)]
    [InlineData("print . --quiet", 200)]
    [InlineData("deliver . --to sent --zip", 100)]
    public void A_limit_on_the_length_of_files_is_told_as_a_full_disk_and_nothing_is_left(string command, int kilobytes)
    {
        if (!File.Exists("/dev/full"))
        {
            return;
        }

        MadeDemo.CopySessionTo(_folder.Path, isPrinted: command.StartsWith("deliver", StringComparison.Ordinal));

        // Fewer bytes than that the runtime needs for itself, unless it opens no door to debuggers and maps no code twice.
        var run = ProgramRun.OfShell(_folder.Path, $"export DOTNET_EnableDiagnostics=0 DOTNET_EnableWriteXorExecute=0; ulimit -f {kilobytes}; drumprint {command}");

        Assert.True(run.ExitCode == ExitCode.File, $"{run.ExitCode}: {run.Error}");
        Assert.Contains("not enough room on the disk", run.Error, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(_folder.Path, ".drumprint-*", SearchOption.AllDirectories));
    }
}
