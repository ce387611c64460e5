using System.CommandLine;
using System.CommandLine.Help;
using System.Text;
using DrumPrint.Cli;
using DrumPrint.Cli.Commands;

Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
var parsed = CommandLine.Root().Parse(args);
if (args.Length == 0)
{
    return await CommandLine.Root().Parse("--help").InvokeAsync();
}

if (parsed.Errors.Count > 0 && parsed.Action is not (HelpAction or CommandLine.HelpWithExitCodes))
{
    Misunderstanding.Write(parsed, Console.Error);
    return ExitCode.Usage;
}

return await parsed.InvokeAsync(new InvocationConfiguration { EnableDefaultExceptionHandler = false, ProcessTerminationTimeout = Timeout.InfiniteTimeSpan });
