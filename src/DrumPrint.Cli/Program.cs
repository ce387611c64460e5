using System.CommandLine;
using System.Text;
using DrumPrint.Cli.Commands;

Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
return await CommandLine.Root().Parse(args).InvokeAsync(new InvocationConfiguration { EnableDefaultExceptionHandler = false });
