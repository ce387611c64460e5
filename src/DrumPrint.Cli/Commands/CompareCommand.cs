using System.CommandLine;
using DrumPrint.Cli.Output;
using DrumPrint.Comparing;
using DrumPrint.Comparing.Album;
using DrumPrint.Comparing.Measuring;
using DrumPrint.Comparing.Pairs;

namespace DrumPrint.Cli.Commands;

/// <summary><c>compare A B</c>: holds two sides against each other at matched level.</summary>
internal static class CompareCommand
{
    public static Command Create()
    {
        var targets = new Argument<string[]>("TARGET")
        {
            Description = "Two chains, two sound files (prints or raw microphones), or two folders or tickets of prints; one chain with --without; or the folders of many songs. Of two raw microphones A and B it tells how much later B is, which is the delay_ms that A needs, and whether its polarity is the opposite, which is \"polarity\": \"inverted\" on one of them.",
            HelpName = "TARGET",
            Arity = ArgumentArity.OneOrMore,
        };
        var without = new Option<string?>("--without") { Description = "Compare a chain with itself without this: a bus (impact), a processor (\"impact/tape\"), a feed (\"impact/toms\"), a track or the drum bus (drum_bus).", HelpName = "PART" };
        var print = new Option<string?>("--print") { Description = "The print to compare, by number or name, or rough or with-bus. Without it: the rough; if that is unchanged, a changed print.", HelpName = "NAME" };
        var from = new Option<string?>("--from") { Description = "Start of the passage: seconds (12.5), minutes (1:23.4) or a bar (bar23). Without it: the busiest 12 s are found.", HelpName = "TIME" };
        var to = new Option<string?>("--to") { Description = "End of the passage, written the same way; a bar is where it begins.", HelpName = "TIME" };
        var match = new Option<string>("--match") { Description = "Match levels by gated loudness (as without it), by mean level (rms), or not at all (true-level).", HelpName = "loudness|rms|true-level", DefaultValueFactory = _ => "loudness" };
        match.AcceptOnlyFromAmong("loudness", "rms", "true-level");
        var trim = new Option<double>("--trim") { Description = "Level given to B by hand after matching, −3 to 3 dB.", HelpName = "DB", CustomParser = TrimText.Parse };
        var page = new Option<string?>("--page") { Description = "Also write a page to listen, look and test yourself blind: one HTML file.", HelpName = "FILE" };
        var album = new Option<bool>("--album") { Description = "Take two folders as two songs of an album; three or more always are." };
        var threads = OutputOptions.ThreadCount();
        var json = new Option<bool>("--json") { Description = "Write the result as JSON to standard output; nothing else goes there." };
        var quiet = new Option<bool>("--quiet") { Description = "No progress and no table; only what went wrong." };
        var command = new Command("compare", "Compare chains or prints at matched level: by number, by picture and by ear.")
        {
            targets, without, print, from, to, match, trim, page, album, threads, json, quiet,
        };
        var reading = new ReadingOption();
        reading.AddTo(command);
        ChainSuggestions.Offer(parsed => parsed.GetValue(targets)?.FirstOrDefault(), ChainSuggestions.Prints, print);
        ChainSuggestions.Offer(parsed => parsed.GetValue(targets)?.FirstOrDefault(), ChainSuggestions.Parts, without);
        Guard.Run(command, (parsed, cancel) => UnfinishedSets.Tell(parsed.GetRequiredValue(targets), () =>
        {
            var paths = parsed.GetRequiredValue(targets);
            Array.ForEach(paths, NamedPlace.MustExist);
            var output = new CompareOutput(parsed.GetValue(page), parsed.GetValue(json), parsed.GetValue(quiet));
            if (parsed.GetValue(album) || paths.Length > 2)
            {
                if (new Option[] { without, print, from, to, trim }.FirstOrDefault(o => parsed.GetResult(o) is { Implicit: false }) is { } other)
                {
                    throw new UsageException($"{other.Name} does not go with an album, which is measured whole.");
                }

                output.Tell(output.Run(progress => AlbumComparer.Compare(paths, parsed.GetValue(threads), progress, cancel)));
                return ExitCode.Done;
            }

            var options = new ComparisonOptions
            {
                Print = parsed.GetValue(print),
                Reading = reading.Of(parsed),
                Without = parsed.GetValue(without),
                From = tempo => TimeText.Parse("--from", parsed.GetValue(from), tempo),
                To = tempo => TimeText.Parse("--to", parsed.GetValue(to), tempo),
                Match = parsed.GetValue(match) switch
                {
                    "rms" => LevelMatch.Rms,
                    "true-level" => LevelMatch.TrueLevel,
                    _ => LevelMatch.Loudness,
                },
                TrimDb = parsed.GetValue(trim),
                ForPage = parsed.GetValue(page) is not null,
                Threads = parsed.GetValue(threads),
            };
            output.Tell(output.Run(progress => Comparer.Compare(paths[0], paths.ElementAtOrDefault(1), options, progress, cancel)));
            return ExitCode.Done;
        }), writes: parsed => parsed.GetValue(page) is not null);
        return command;
    }
}
