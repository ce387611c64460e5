using System.CommandLine;
using System.CommandLine.Help;
using DrumPrint.Cli.Commands;
using DrumPrint.Cli.Output;

namespace DrumPrint.Cli;

/// <summary>The program from its arguments to its exit code.</summary>
internal static class Entry
{
    public static Task<int> Run(string[] args)
    {
        var invocation = new InvocationConfiguration { EnableDefaultExceptionHandler = false, ProcessTerminationTimeout = Timeout.InfiniteTimeSpan, Output = Terminal.Output, Error = Terminal.Error };
        if (args.Length == 0)
        {
            FirstScreen.Write();
            return Task.FromResult(ExitCode.Done);
        }

        var parsed = CommandLine.Root().Parse(args);
        if (parsed.Errors.Count > 0 && parsed.Action is not (HelpAction or CommandLine.HelpWithExitCodes))
        {
            Misunderstanding.Write(parsed);
            return Task.FromResult(ExitCode.Usage);
        }

        return parsed.InvokeAsync(invocation);
    }
}
