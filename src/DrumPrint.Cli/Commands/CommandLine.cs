using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace DrumPrint.Cli.Commands;

/// <summary>Everything the program can be asked to do.</summary>
internal static class CommandLine
{
    public static RootCommand Root()
    {
        var root = new RootCommand("Prints parallel-processed drum tracks from raw recordings and one readable chain file.")
        {
            DemoCommand.Create(),
            PrintCommand.Create(),
            ReprintCommand.Create(),
            ChainCommand.Create(),
            DiffCommand.Create(),
            DeliverCommand.Create(),
            WhoseCommand.Create(),
            StoreCommand.Create(),
            BeginCommand.Create(),
            AlignCommand.Create(),
            MeasureCommand.Create(),
            CompareCommand.Create(),
            CheckCommand.Create(),
            SchemaCommand.Create(),
            ProcessorsCommand.Create(),
            CompletionsCommand.Create(),
            SelfTestCommand.Create(),
        };
        foreach (var option in root.Options.OfType<HelpOption>())
        {
            option.Action = new HelpWithExitCodes((HelpAction)option.Action!, root);
        }

        return root;
    }

    // The usual help, and under the program's own help the exit codes.
    internal sealed class HelpWithExitCodes(HelpAction help, Command root) : SynchronousCommandLineAction
    {
        public override int Invoke(ParseResult parseResult)
        {
            var result = help.Invoke(parseResult);
            if (parseResult.CommandResult.Command == root)
            {
                var output = parseResult.InvocationConfiguration.Output;
                output.WriteLine(ExitCode.Help);
            }

            return result;
        }
    }
}
