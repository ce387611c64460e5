using System.CommandLine;
using DrumPrint.Chains;
using DrumPrint.Cli.Output;

namespace DrumPrint.Cli.Commands;

/// <summary>Says what a command line holds that the program does not understand, and what may have been meant.</summary>
internal static class Misunderstanding
{
    public static void Write(ParseResult parsed)
    {
        var command = parsed.CommandResult.Command;
        var isProgram = command is RootCommand;
        var unknown = Unknown(parsed.UnmatchedTokens).ToList();
        foreach (var word in unknown)
        {
            if (isProgram && Dropped(word) is { } advice)
            {
                Terminal.Say($"{word}: {advice}");
                continue;
            }

            var known = word.StartsWith('-') ? command.Options.Select(o => o.Name) : command.Subcommands.Select(c => c.Name);
            var nearest = Spelling.Nearest(word, known);
            var kind = word.StartsWith('-') ? "there is no such option" : command.Subcommands.Count > 0 ? "there is no such command" : "this is one word too many (put a name with spaces in quotes)";
            Terminal.Say($"{word}: {kind}.{(nearest is null ? "" : $" Did you mean {nearest}?")}");
        }

        if (unknown.Count == 0)
        {
            foreach (var error in parsed.Errors)
            {
                Terminal.Say(string.Join(' ', error.Message.Split(['\n', '\r', '\t'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)));
            }
        }

        Terminal.Say($"Nothing was done. See: drumprint {(isProgram ? "" : Path(command) + " ")}--help");
    }

    // A file or folder that was dropped on the program, or typed without a command before it.
    private static string? Dropped(string word)
    {
        const string first = "a command comes first";
        return (Directory.Exists(word), File.Exists(word)) switch
        {
            (true, _) => $"this is a folder, and {first}. A folder of takes: drumprint begin \"{word}\". One with a chain: drumprint print \"{word}\"",
            (_, true) when word.EndsWith(".json", StringComparison.OrdinalIgnoreCase) => $"this is a file, and {first}: drumprint print \"{word}\"",
            (_, true) => $"this is a file, and {first}. What a sound file holds: drumprint measure \"{word}\"",
            _ => null,
        };
    }

    // What follows an unknown option was meant as its value.
    private static IEnumerable<string> Unknown(IReadOnlyList<string> words)
    {
        for (var i = 0; i < words.Count; i++)
        {
            if (i == 0 || words[i].StartsWith('-') || !words[i - 1].StartsWith('-'))
            {
                yield return words[i];
            }

            if (i == 0 && !words[0].StartsWith('-'))
            {
                // After a command that does not exist nothing can be told.
                yield break;
            }
        }
    }

    private static string Path(Command command) =>
        command.Parents.OfType<Command>().FirstOrDefault() is { } parent and not RootCommand ? $"{Path(parent)} {command.Name}" : command.Name;
}
