using System.CommandLine;
using DrumPrint.Cli.Output;
using DrumPrint.Reprinting;

namespace DrumPrint.Cli.Commands;

/// <summary><c>chain TARGET</c>: the chain file out of a ticket or print.</summary>
internal static class ChainCommand
{
    public static Command Create()
    {
        var target = new Argument<string>("TARGET") { Description = "A ticket, a print, or a folder with one ticket." };
        var file = new Option<string?>("--out") { Description = "The chain file to write; no file is replaced. Without it: SONG_v1.chain.json here.", HelpName = "FILE" };
        var command = new Command("chain", "Write the chain file that made a print, out of its ticket or the print itself.") { target, file };
        Guard.Run(
            command,
            (parsed, _) =>
            {
                var chain = ChainRecovery.Write(parsed.GetRequiredValue(target), parsed.GetValue(file), Terminal.Say);
                Terminal.Tell($"Written: {chain.Path}{(chain.TempoPath is { } tempo ? $" and its tempo map, {tempo}" : "")}");
                foreach (var note in chain.Notes)
                {
                    Terminal.Tell(note);
                }

                return ExitCode.Done;
            },
            _ => true);
        return command;
    }
}
