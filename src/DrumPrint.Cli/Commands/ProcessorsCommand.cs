using System.CommandLine;
using DrumPrint.Chains.Describing;
using DrumPrint.Cli.Output;

namespace DrumPrint.Cli.Commands;

/// <summary><c>processors [NAME]</c>: what a chain can name, and what each takes.</summary>
internal static class ProcessorsCommand
{
    public static Command Create()
    {
        var name = new Argument<string?>("NAME") { Description = "One processor. Without it: a list of all.", HelpName = "NAME", Arity = ArgumentArity.ZeroOrOne };
        name.CompletionSources.Add(_ => ProcessorReference.Pages().Select(p => new System.CommandLine.Completions.CompletionItem(p.Key)));
        var markdown = new Option<bool>("--markdown") { Description = "Write Markdown instead of a table." };
        var command = new Command("processors", "Show the processors and their settings.") { name, markdown };
        Guard.Run(command, (parsed, _) =>
        {
            var pages = Pages(parsed.GetValue(name));
            if (parsed.GetValue(markdown))
            {
                Terminal.TellLines(ProcessorReference.Markdown(pages));
            }
            else if (parsed.GetValue(name) is null)
            {
                ReferenceScreen.List(pages);
            }
            else
            {
                ReferenceScreen.Page(pages[0]);
            }

            return ExitCode.Done;
        });
        return command;
    }

    private static IReadOnlyList<ProcessorPage> Pages(string? name)
    {
        if (name is null)
        {
            return ProcessorReference.Pages();
        }

        return ProcessorReference.Find(name) is { } page
            ? [page]
            : throw new UsageException(ProcessorReference.Nearest(name) is { } near
                ? $"There is no processor '{name}'. Did you mean '{near}'?"
                : $"There is no processor '{name}'. There are {string.Join(", ", ProcessorReference.Pages().Select(p => p.Key))}.");
    }
}
