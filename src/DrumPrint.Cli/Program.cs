using System.CommandLine;
using System.CommandLine.Help;
using DrumPrint.Cli;
using DrumPrint.Cli.Commands;
using DrumPrint.Cli.Output;

Terminal.UseUtf8();
var invocation = new InvocationConfiguration { EnableDefaultExceptionHandler = false, ProcessTerminationTimeout = Timeout.InfiniteTimeSpan, Output = Terminal.Output, Error = Terminal.Error };
var parsed = CommandLine.Root().Parse(args);
if (args.Length == 0)
{
    return await CommandLine.Root().Parse("--help").InvokeAsync(invocation);
}

if (parsed.Errors.Count > 0 && parsed.Action is not (HelpAction or CommandLine.HelpWithExitCodes))
{
    Misunderstanding.Write(parsed);
    return ExitCode.Usage;
}

return await parsed.InvokeAsync(invocation);
