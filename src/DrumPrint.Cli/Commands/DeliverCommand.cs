using System.CommandLine;
using DrumPrint.Chains.Reading;
using DrumPrint.Cli.Output;
using DrumPrint.Delivering;
using DrumPrint.Files;
using DrumPrint.Printing;

namespace DrumPrint.Cli.Commands;

/// <summary><c>deliver CHAIN --to FOLDER</c>: one folder for the mixer; <c>deliver --check FOLDER</c>: whether one arrived whole.</summary>
internal static class DeliverCommand
{
    public static Command Create()
    {
        var songs = new SongList("deliver", new Argument<string[]>("CHAIN") { Description = "The chain file that was printed, or the folder that holds it and no other chain; or those of many songs." });
        songs.Argument.Arity = ArgumentArity.ZeroOrMore;
        var to = new Option<string?>("--to") { Description = "The folder that deliveries go to; each version gets a folder of its own there, and none is ever overwritten.", HelpName = "FOLDER" };
        var prints = new Option<string?>("--prints") { Description = "Where the prints lie. Without it: the folder prints beside the chain.", HelpName = "FOLDER" };
        var since = new Option<string?>("--since") { Description = "The earlier delivery that the mixer has: also make a folder with only what changed or is new. Without it the last earlier version beside the new one is only told of.", HelpName = "FOLDER" };
        var form = new DeliveryFormOptions();
        var zip = new Option<bool>("--zip") { Description = "Also make a zip file of each folder, the same bytes every time." };
        var check = new Option<string?>("--check") { Description = "Check a delivery that you received, without any chain: missing, changed, renamed, shortened and strange files are told.", HelpName = "FOLDER" };
        var json = new Option<bool>("--json") { Description = "Write the result as JSON to standard output; nothing else goes there." };
        var quiet = new Option<bool>("--quiet") { Description = "No progress and no list; only the exit code and what went wrong." };
        var command = new Command(
            "deliver",
            "Make one folder for the mixer: prints proved by their ticket, tempo map, a sheet to read and to print, a manifest. Or check one that came.")
        {
            songs.Argument, to, prints, since, zip, check, json, quiet,
        };
        form.AddTo(command);
        songs.AddTo(command);
        var reading = new ReadingOption();
        reading.AddTo(command);
        Guard.Run(command, (parsed, cancel) =>
        {
            var (isJson, isQuiet) = (parsed.GetValue(json), parsed.GetValue(quiet));
            if (parsed.GetValue(check) is { } folder)
            {
                if (parsed.GetValue(songs.Argument) is { Length: > 0 } || parsed.GetValue(to) is not null)
                {
                    throw new UsageException("--check goes without a chain and without --to: it looks at a folder that came, such as: drumprint deliver --check SlowFerry_v1");
                }

                NamedPlace.MustExist(folder);
                return Tell(DeliveryCheck.Check(folder, cancel), folder, isJson, isQuiet);
            }

            var place = parsed.GetValue(to) ?? throw new UsageException("--to is missing: name the folder that deliveries go to, such as: drumprint deliver SlowFerry.chain.json --to deliveries");
            if (parsed.GetValue(songs.Argument) is not { Length: > 0 })
            {
                throw new UsageException("CHAIN is missing: name the chain that was printed, such as: drumprint deliver SlowFerry.chain.json --to deliveries");
            }

            var (policy, settings) = (reading.Of(parsed), UserSettings.Read());
            songs.ForOneOnly(parsed, prints, since);
            return songs.Each(parsed, (isJson, isQuiet), One, parsed.GetValue(prints), policy, writes: true, cancel);

            int One(string song, bool isOneOfMany)
            {
                var options = form.Apply(parsed, new DeliveryOptions
                {
                    Reading = policy,
                    To = place,
                    PrintsFolder = parsed.GetValue(prints),
                    Since = parsed.GetValue(since),
                    Zips = parsed.GetValue(zip),
                    Contact = settings.Contact,
                    Credit = settings.Credit,
                });
                var session = ChainReader.Read(SessionFolder.Chain(song), reading: policy);
                var report = ProgressDisplay.Run(!isJson && !isQuiet, progress => Deliverer.Deliver(session, options, progress, cancel));
                if (isJson && !isOneOfMany)
                {
                    DeliverJson.Write(Terminal.Json(), report);
                }
                else if (!isJson && !isQuiet)
                {
                    DeliverScreen.Write(report);
                }

                return ExitCode.Done;
            }
        }, writes: parsed => parsed.GetValue(check) is null && songs.Writes(parsed));
        return command;
    }

    private static int Tell(DeliveryCheck check, string folder, bool isJson, bool isQuiet)
    {
        if (isJson)
        {
            DeliverJson.Write(Terminal.Json(), check);
        }
        else if (!isQuiet)
        {
            DeliverScreen.Write(check, folder);
        }

        return check.IsWhole ? ExitCode.Done : ExitCode.Findings;
    }
}
