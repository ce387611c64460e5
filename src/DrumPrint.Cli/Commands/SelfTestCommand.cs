using System.CommandLine;
using DrumPrint.Cli.Output;
using DrumPrint.SelfTest;

namespace DrumPrint.Cli.Commands;

/// <summary><c>selftest</c>: whether this machine makes the bytes that every machine makes.</summary>
internal static class SelfTestCommand
{
    public static Command Create()
    {
        var quiet = new Option<bool>("--quiet") { Description = "No progress and no list; only the exit code and what went wrong." };
        var command = new Command("selftest", "Print a small built-in session with every processor, and check that this machine makes the same samples as every other.") { quiet };
        Guard.Run(command, (parsed, cancel) =>
        {
            var isQuiet = parsed.GetValue(quiet);
            var report = ProgressDisplay.Run(!isQuiet, progress => SelfTestRun.Run(new ToldProgress(progress), cancel));
            SelfTestScreen.Write(report, isQuiet);
            return report.IsSame ? ExitCode.Done : ExitCode.Findings;
        });
        return command;
    }
}
