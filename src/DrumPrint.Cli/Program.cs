using System.CommandLine;
using System.Text;
using DrumPrint.Cli;
using DrumPrint.Cli.Commands;

Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
var parsed = CommandLine.Root().Parse(args);
var code = await parsed.InvokeAsync(new InvocationConfiguration { EnableDefaultExceptionHandler = false, ProcessTerminationTimeout = Timeout.InfiniteTimeSpan });

// The parser's own code for a command it does not understand is 1, which here means findings.
return parsed.Errors.Count > 0 && code == 1 ? ExitCode.Usage : code;
