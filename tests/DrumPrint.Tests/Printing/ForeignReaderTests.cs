using System.Diagnostics;
using DrumPrint.Tests.Support;

namespace DrumPrint.Tests.Printing;

/// <summary>Prints held against other programs' readers: libsndfile's and FFmpeg's command-line tools, when installed.</summary>
public sealed class ForeignReaderTests : IDisposable
{
    private readonly TestSession _session = new();

    public void Dispose() => _session.Dispose();

    [FactWithTool("sndfile-info")]
    public void Libsndfile_reads_a_print_and_its_history()
    {
        var (path, frames) = Print();

        var (code, text) = Run("sndfile-info", "--broadcast", path);

        Assert.Equal(0, code);
        Assert.Contains("A=PCM,F=48000,W=24,M=stereo,T=DrumPrint", text, StringComparison.Ordinal);
        var (_, info) = Run("sndfile-info", path);
        Assert.Matches($@"Frames\s*:\s*{frames}\b", info);
        Assert.Contains("dprt", info, StringComparison.Ordinal);
        Assert.DoesNotContain("error", info, StringComparison.OrdinalIgnoreCase);
    }

    [FactWithTool("ffprobe")]
    public void Ffprobe_reads_a_print()
    {
        var (path, frames) = Print();

        var (code, text) = Run("ffprobe", "-v", "warning", "-show_entries", "stream=codec_name,channels,sample_rate,duration_ts:format_tags", "-of", "default=noprint_wrappers=1", path);

        Assert.Equal(0, code);
        foreach (var line in new[] { "codec_name=pcm_s24le", "channels=2", "sample_rate=48000", $"duration_ts={frames}", "TAG:encoded_by=DrumPrint" })
        {
            Assert.Contains(line, text, StringComparison.Ordinal);
        }
    }

    private (string Path, long Frames) Print()
    {
        BusySession.Write(_session);
        var report = _session.Print(BusySession.Chain(_session));
        return (Path.Combine(_session.Prints, "02_B_Test_v1.wav"), report.Frames);
    }

    private static (int Code, string Text) Run(string tool, params string[] arguments)
    {
        var start = new ProcessStartInfo(tool, arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        using var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync();
        var text = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, text + error.Result);
    }
}
