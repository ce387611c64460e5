using System.CommandLine;
using DrumPrint.Chains;

namespace DrumPrint.Cli.Commands;

/// <summary><c>help [COMMAND]</c>: what <c>--help</c> says.</summary>
internal static class HelpCommand
{
    public static Command Create(RootCommand root)
    {
        var words = new Argument<string[]>("COMMAND") { Description = "The command to explain. Without it: all of them in a line each.", Arity = ArgumentArity.ZeroOrMore };
        var command = new Command("help", "Explain a command, with examples.") { words };
        Guard.Run(command, (parsed, cancel) =>
        {
            string[] asked = [.. parsed.GetValue(words) ?? [], "--help"];
            var help = root.Parse(asked);
            if (help.CommandResult.Command is RootCommand && asked.Length > 1)
            {
                var nearest = Spelling.Nearest(asked[0], root.Subcommands.Select(c => c.Name));
                throw new UsageException($"There is no command '{asked[0]}'.{(nearest is null ? "" : $" Did you mean {nearest}?")} drumprint help shows all of them.");
            }

            return help.InvokeAsync(parsed.InvocationConfiguration, cancel).GetAwaiter().GetResult();
        });
        return command;
    }
}
