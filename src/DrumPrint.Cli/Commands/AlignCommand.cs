using System.CommandLine;
using System.Text.Json;
using DrumPrint.Aligning;
using DrumPrint.Chains.Reading;
using DrumPrint.Cli.Output;
using DrumPrint.Files;
using DrumPrint.Printing;

namespace DrumPrint.Cli.Commands;

/// <summary><c>align CHAIN</c>: delay and polarity of every pair of microphones that matters.</summary>
internal static class AlignCommand
{
    public static Command Create()
    {
        var chain = new Argument<string>("CHAIN") { Description = "The chain file, or the folder that holds it and no other chain." };
        var with = new Option<string[]>("--with") { Description = "Rooms to look at too, by track; without it rooms are left in the room.", HelpName = "NAME", AllowMultipleArgumentsPerToken = true };
        var apply = new Option<string[]>("--apply") { Description = "Write delay_ms and polarity of these tracks into the chain, in place: each meets the latest microphone on its side of its drum.", HelpName = "NAME", AllowMultipleArgumentsPerToken = true };
        var to = new Option<string?>("--to") { Description = "With --apply: line them up with this track instead, an overhead for one.", HelpName = "NAME" };
        var undo = new Option<bool>("--undo") { Description = "Take back what --apply wrote last; the file is as it was, byte for byte." };
        var picture = new Option<string?>("--picture") { Description = "Also draw it: an SVG file, which is replaced.", HelpName = "FILE.svg" };
        var json = new Option<bool>("--json") { Description = "Write the result as JSON to standard output; nothing else goes there." };
        var quiet = new Option<bool>("--quiet") { Description = "No progress and no table; only what went wrong." };
        var command = new Command(
            "align",
            "Tell how much later, and which way up, each microphone hears each drum.")
        {
            chain, with, apply, to, undo, picture, json, quiet,
        };
        var reading = new ReadingOption();
        reading.AddTo(command);
        ChainSuggestions.Offer(parsed => parsed.GetValue(chain), ChainSuggestions.Tracks, with, apply, to);
        Guard.Run(
            command,
            (parsed, cancel) =>
            {
                var path = SessionFolder.Chain(parsed.GetRequiredValue(chain));
                var names = parsed.GetValue(apply) ?? [];
                if (parsed.GetValue(undo))
                {
                    AlignmentEdit.Undo(path);
                    Terminal.Tell($"{path} is as it was before align wrote into it.");
                    return ExitCode.Done;
                }

                if (names.Length == 0 && parsed.GetValue(to) is not null)
                {
                    throw new UsageException("--to says what --apply lines up with; name the tracks to be moved with --apply.");
                }

                var read = ChainReader.Read(path, reading: reading.Of(parsed));
                string[] rooms = [.. parsed.GetValue(with) ?? [], .. parsed.GetValue(to) is { } target ? [target] : Array.Empty<string>()];
                var isShown = !parsed.GetValue(quiet) && !parsed.GetValue(json);
                var report = ProgressDisplay.Run(isShown, progress => Aligner.Look(read, rooms, reading.Of(parsed), progress, cancel));
                AlignmentMove[] moves = [.. names.Select(n => AlignmentMove.Of(report, read, n, parsed.GetValue(to)))];
                var isChanged = moves.Length > 0 && AlignmentEdit.Apply(path, read, moves);
                if (parsed.GetValue(picture) is { } file)
                {
                    PictureFile.Write(file, AlignmentPicture.Svg(report));
                }

                if (parsed.GetValue(json))
                {
                    using var writer = new Utf8JsonWriter(Terminal.Json(), new JsonWriterOptions { Indented = true, NewLine = "\n" });
                    AlignmentJson.Write(writer, report, moves, isChanged);
                }
                else if (isShown)
                {
                    AlignScreen.Write(report);
                    if (moves.Length > 0)
                    {
                        AlignScreen.Write(moves, isChanged, path);
                    }
                }

                return ExitCode.Done;
            },
            parsed => parsed.GetValue(apply) is { Length: > 0 } || parsed.GetValue(picture) is not null);
        return command;
    }
}
