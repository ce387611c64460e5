using System.CommandLine;
using DrumPrint.Chains.Reading;
using DrumPrint.Cli.Output;
using DrumPrint.Printing;
using DrumPrint.Session;

namespace DrumPrint.Cli.Commands;

/// <summary><c>print CHAIN</c>: renders a session.</summary>
internal static class PrintCommand
{
    public static Command Create()
    {
        var songs = new SongList("print", new Argument<string[]>("CHAIN") { Description = "The chain file, such as my-song.chain.json, or the folder that holds it and no other chain; or those of many songs." });
        var only = new Option<string[]>("--only")
        {
            Description = "Write only these prints, by number or name. Their length stays that of the whole session; the ticket is deleted, for it is valid for a complete print only.",
            AllowMultipleArgumentsPerToken = true,
            HelpName = "NAME",
        };
        var from = new Option<string?>("--from") { Description = "Start of an excerpt: seconds (12.5), minutes (1:23.4) or a bar (bar23).", HelpName = "TIME" };
        var to = new Option<string?>("--to") { Description = "End of an excerpt, written the same way; a bar is where it begins.", HelpName = "TIME" };
        var exact = new Option<bool>("--exact") { Description = "Render an excerpt from the start of the song, so that it is a slice of the print to the last bit. Without it: to −100 dBFS, and at once." };
        var output = new OutputOptions();
        var command = new Command("print", "Print a session: raw tracks in, consolidated tracks and roughs out.") { songs.Argument, output.Out, only, from, to, exact };
        output.AddTo(command);
        songs.AddTo(command);
        var reading = new ReadingOption();
        reading.AddTo(command);
        ChainSuggestions.Offer(parsed => parsed.GetValue(songs.Argument)?.FirstOrDefault(), ChainSuggestions.Prints, only);
        Guard.Run(command, (parsed, cancel) =>
        {
            var policy = reading.Of(parsed);
            songs.ForOneOnly(parsed, output.Out);
            return songs.Each(parsed, (parsed.GetValue(output.Json), parsed.GetValue(output.Quiet)), One, parsed.GetValue(output.Out), policy, writes: true, cancel);

            int One(string song, bool isOneOfMany)
            {
                var path = SessionFolder.Chain(song);
                var session = ChainReader.Read(path, reading: policy);
                var options = output.Apply(parsed, path, new PrintOptions
                {
                    Reading = policy,
                    OutFolder = parsed.GetValue(output.Out),
                    Only = parsed.GetValue(only) ?? [],
                    FromS = TimeText.Parse("--from", parsed.GetValue(from), session.Song.Tempo),
                    ToS = TimeText.Parse("--to", parsed.GetValue(to), session.Song.Tempo),
                    FromBar = TimeText.Bar(parsed.GetValue(from)),
                    ToBar = TimeText.Bar(parsed.GetValue(to)),
                    IsExact = parsed.GetValue(exact),
                });
                return output.Print(parsed, session, options, isOneOfMany, cancel);
            }
        }, writes: songs.Writes);
        return command;
    }
}
