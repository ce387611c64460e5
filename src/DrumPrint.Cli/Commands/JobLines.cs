using System.CommandLine;
using System.CommandLine.Parsing;
using DrumPrint.Cli.Output;

namespace DrumPrint.Cli.Commands;

/// <summary>Writes one command for each song, as a shell reads it.</summary>
internal static class JobLines
{
    /// <param name="verb">The command.</param>
    /// <param name="parsed">The command line; all of its options go into every line.</param>
    /// <param name="songs">The songs.</param>
    /// <param name="argument">The argument that named them.</param>
    /// <param name="listJobs">The option that asked for the list.</param>
    public static void Write(string verb, ParseResult parsed, IReadOnlyList<string> songs, Argument argument, Option listJobs)
    {
        var named = parsed.GetResult(argument)!.Tokens.ToHashSet(ReferenceEqualityComparer.Instance);
        string[] rest = [.. parsed.Tokens.Where(t => t.Type != TokenType.Command && !named.Contains(t) && !(t.Type == TokenType.Option && t.Value == listJobs.Name)).Select(t => Quoted(t.Value))];
        foreach (var song in songs)
        {
            Terminal.Tell(string.Join(' ', ["drumprint", verb, Quoted(song), .. rest]));
        }
    }

    /// <summary>A word as a POSIX shell takes it whole.</summary>
    public static string Quoted(string word) => word.Length > 0 && word.All(c => char.IsAsciiLetterOrDigit(c) || c is '_' or '-' or '.' or '/' or ':' or '=' or ',')
        ? word
        : $"'{word.Replace("'", "'\\''", StringComparison.Ordinal)}'";
}
