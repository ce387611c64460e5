using System.Diagnostics;

namespace DrumPrint.Cli.Tests;

/// <summary>Runs the real program in a process of its own.</summary>
internal sealed record ProgramRun(int ExitCode, string Output, string Error)
{
    public static ProgramRun Of(string folder, params string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet")
        {
            WorkingDirectory = folder,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardOutputEncoding = System.Text.Encoding.UTF8,
            StandardErrorEncoding = System.Text.Encoding.UTF8,
        };
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "drumprint.dll"));
        // No test reads the settings of whoever runs it.
        start.Environment["DRUMPRINT_SETTINGS"] = Path.Combine(folder, ".config", "drumprint");
        foreach (var argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }

        using var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return new ProgramRun(process.ExitCode, output, error.Result);
    }
}
