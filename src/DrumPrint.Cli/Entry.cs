using System.CommandLine;
using System.CommandLine.Help;
using DrumPrint.Cli.Commands;
using DrumPrint.Cli.Output;

namespace DrumPrint.Cli;

/// <summary>The program from its arguments to its exit code.</summary>
internal static class Entry
{
    // What stands for bytes that make no character.
    private const char NoCharacter = '\uFFFD';

    public static Task<int> Run(string[] args) => Run(args, OwnWindow.Current);

    /// <summary>The same in any window.</summary>
    internal static Task<int> Run(string[] args, OwnWindow window)
    {
        var invocation = new InvocationConfiguration { EnableDefaultExceptionHandler = false, ProcessTerminationTimeout = Timeout.InfiniteTimeSpan, Output = Terminal.Output, Error = Terminal.Error };
        if (args.Length == 0)
        {
            FirstScreen.Write();
            window.Hold();
            return Task.FromResult(ExitCode.Done);
        }

        if (args.FirstOrDefault(a => a.Length == 0 || (a.StartsWith("--", StringComparison.Ordinal) && a.EndsWith('='))) is { } empty)
        {
            Terminal.Say($"{(empty.Length == 0 ? "A name" : empty)} is empty, perhaps by a variable that is not set. Nothing was done.");
            return Task.FromResult(ExitCode.Usage);
        }

        if (args.FirstOrDefault(a => a.Contains(NoCharacter, StringComparison.Ordinal)) is { } broken)
        {
            Terminal.Say($"{broken}: this name holds bytes that are no UTF-8, and cannot be opened by it. Rename the file. Nothing was done.");
            return Task.FromResult(ExitCode.Usage);
        }

        var parsed = CommandLine.Root().Parse(args);
        if (parsed.Errors.Count > 0 && parsed.Action is not (HelpAction or CommandLine.HelpWithExitCodes))
        {
            Misunderstanding.Write(parsed);
            if (args is [var dropped] && Path.Exists(dropped))
            {
                window.Hold();
            }

            return Task.FromResult(ExitCode.Usage);
        }

        return parsed.InvokeAsync(invocation);
    }
}
