using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using DrumPrint.Cli.Output;

namespace DrumPrint.Cli.Commands;

/// <summary>Everything the program can be asked to do.</summary>
internal static class CommandLine
{
    public static RootCommand Root()
    {
        var root = new RootCommand("Prints parallel-processed drum tracks from raw recordings and one readable chain file.")
        {
            DemoCommand.Create(),
            BeginCommand.Create(),
            CarryCommand.Create(),
            AlignCommand.Create(),
            CheckCommand.Create(),
            PrintCommand.Create(),
            BenchCommand.Create(),
            CompareCommand.Create(),
            MeasureCommand.Create(),
            DeliverCommand.Create(),
            WhoseCommand.Create(),
            ArchiveCommand.Create(),
            DiffCommand.Create(),
            ReprintCommand.Create(),
            ChainCommand.Create(),
            StoreCommand.Create(),
            ProcessorsCommand.Create(),
            SchemaCommand.Create(),
            CompletionsCommand.Create(),
            SelfTestCommand.Create(),
        };
        root.Subcommands.Add(HelpCommand.Create(root));
        foreach (var option in root.Options.OfType<HelpOption>())
        {
            option.Action = new HelpWithExitCodes((HelpAction)option.Action!, root);
        }

        foreach (var option in root.Options.OfType<VersionOption>())
        {
            option.Description = "Show version and build.";
            option.Action = new VersionAndBuild();
        }

        return root;
    }

    private sealed class VersionAndBuild : SynchronousCommandLineAction
    {
        public override int Invoke(ParseResult parseResult)
        {
            Terminal.Tell(BuildText.Line);
            return ExitCode.Done;
        }
    }

    // The usual help; under it examples, and under the program's own help the exit codes.
    internal sealed class HelpWithExitCodes(HelpAction help, Command root) : SynchronousCommandLineAction
    {
        public override int Invoke(ParseResult parseResult)
        {
            help.MaxWidth = Terminal.Screen().Width;
            var result = help.Invoke(parseResult);
            var output = parseResult.InvocationConfiguration.Output;
            var command = parseResult.CommandResult.Command;
            if (command == root)
            {
                output.WriteLine(ExitCode.Help);
            }

            var examples = HelpExamples.Of(command);
            if (examples.Count > 0)
            {
                output.WriteLine("Examples:");
                foreach (var example in examples)
                {
                    output.WriteLine($"  drumprint {example}");
                }
            }

            return result;
        }
    }
}
