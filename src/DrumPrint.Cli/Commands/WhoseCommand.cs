using System.CommandLine;
using DrumPrint.Cli.Output;
using DrumPrint.Delivering;

namespace DrumPrint.Cli.Commands;

/// <summary><c>whose FILE FOLDER…</c>: which delivery a sound file came from.</summary>
internal static class WhoseCommand
{
    public static Command Create()
    {
        var file = new Argument<string>("FILE") { Description = "A sound file, whatever it is called now." };
        var folders = new Argument<string[]>("FOLDER") { Description = "Deliveries, or folders that hold deliveries.", Arity = ArgumentArity.OneOrMore };
        var json = new Option<bool>("--json") { Description = "Write the result as JSON to standard output; nothing else goes there." };
        var command = new Command(
            "whose",
            "Say which delivery and version a sound file came from, by its samples: also when it was renamed, cut at the end, or turned from 24 bit to float.")
        {
            file, folders, json,
        };
        Guard.Run(command, (parsed, cancel) =>
        {
            var path = parsed.GetRequiredValue(file);
            var isAllRead = true;
            var origins = FileOrigin.Find(
                path,
                parsed.GetRequiredValue(folders),
                sentence =>
                {
                    isAllRead = false;
                    Terminal.Say(sentence);
                },
                cancel);
            if (parsed.GetValue(json))
            {
                DeliverJson.Write(Terminal.Json(), path, origins);
            }
            else
            {
                DeliverScreen.Write(path, origins);
            }

            return origins.Count > 0 && isAllRead ? ExitCode.Done : ExitCode.Findings;
        });
        return command;
    }
}
