using System.CommandLine;
using DrumPrint.Chains;

namespace DrumPrint.Cli.Commands;

/// <summary><c>schema</c>: the JSON Schema of the chain file.</summary>
internal static class SchemaCommand
{
    public static Command Create()
    {
        var command = new Command("schema", "Write the JSON Schema of the chain file, for editors that complete and check as you type.");
        Guard.Run(command, (_, _) =>
        {
            Console.Out.Write(ChainSchema.Text());
            return ExitCode.Done;
        });
        return command;
    }
}
