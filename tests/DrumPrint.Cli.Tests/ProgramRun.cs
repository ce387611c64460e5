using System.Diagnostics;
using System.Text;
using DrumPrint.Cli.Output;

[assembly: CollectionBehavior(DisableTestParallelization = true)]

namespace DrumPrint.Cli.Tests;

/// <summary>What the program said and ended with.</summary>
/// <remarks>The console and the working folder belong to the whole process, so these tests run one after another.</remarks>
internal sealed record ProgramRun(int ExitCode, string Output, string Error)
{
    // No test reads the settings of whoever runs it.
    private const string Settings = "DRUMPRINT_SETTINGS";

    // Wide enough that no sentence a test looks for is wrapped.
    private const string Wide = "1000";

    /// <summary>Runs the program in this process.</summary>
    public static ProgramRun Of(string folder, params string[] arguments) => Wrapped(folder, Wide, arguments);

    /// <summary>The same on a screen of some width.</summary>
    public static ProgramRun Wrapped(string folder, string? columns, params string[] arguments) => In(folder, columns, () => Entry.Run(arguments));

    /// <summary>The same in a window that closes with the program.</summary>
    /// <param name="folder">Where it runs.</param>
    /// <param name="waitForKey">Called when it waits for a key.</param>
    /// <param name="arguments">Its words.</param>
    public static ProgramRun InOwnWindow(string folder, Action waitForKey, params string[] arguments) =>
        In(folder, Wide, () => Entry.Run(arguments, new OwnWindow(isOurs: true, waitForKey)));

    private static ProgramRun In(string folder, string? columns, Func<Task<int>> run)
    {
        var (outBefore, errorBefore, folderBefore) = (Console.Out, Console.Error, Environment.CurrentDirectory);
        using var output = new StringWriter();
        using var error = new StringWriter();
        try
        {
            Console.SetOut(TextWriter.Synchronized(output));
            Console.SetError(TextWriter.Synchronized(error));
            Environment.CurrentDirectory = folder;
            Environment.SetEnvironmentVariable(Settings, SettingsIn(folder));
            Environment.SetEnvironmentVariable("COLUMNS", columns);
            var exitCode = run().GetAwaiter().GetResult();
            return new ProgramRun(exitCode, output.ToString(), error.ToString());
        }
        finally
        {
            Console.SetOut(outBefore);
            Console.SetError(errorBefore);
            Environment.CurrentDirectory = folderBefore;
            Environment.SetEnvironmentVariable(Settings, null);
            Environment.SetEnvironmentVariable("COLUMNS", null);
        }
    }

    /// <summary>Runs the real program in a process of its own.</summary>
    public static ProgramRun OfProcess(string folder, params string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet")
        {
            WorkingDirectory = folder,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardOutputEncoding = Encoding.UTF8,
            StandardErrorEncoding = Encoding.UTF8,
        };
        start.ArgumentList.Add(Path.Combine(AppContext.BaseDirectory, "drumprint.dll"));
        start.Environment[Settings] = SettingsIn(folder);
        start.Environment["COLUMNS"] = Wide;
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

    /// <summary>Runs a line of a shell in which <c>drumprint</c> is the real program.</summary>
    public static ProgramRun OfShell(string folder, string line)
    {
        var start = new ProcessStartInfo("bash") { WorkingDirectory = folder, RedirectStandardError = true, StandardErrorEncoding = Encoding.UTF8 };
        start.ArgumentList.Add("-c");
        start.ArgumentList.Add($"drumprint() {{ exec dotnet '{Path.Combine(AppContext.BaseDirectory, "drumprint.dll")}' \"$@\"; }}\n{line}");
        start.Environment[Settings] = SettingsIn(folder);
        using var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEnd();
        process.WaitForExit();
        return new ProgramRun(process.ExitCode, "", error);
    }

    private static string SettingsIn(string folder) => Path.Combine(folder, ".config", "drumprint");
}
