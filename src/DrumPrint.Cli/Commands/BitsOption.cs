using System.CommandLine;
using DrumPrint.Audio;

namespace DrumPrint.Cli.Commands;

/// <summary><c>--bits</c>: the word lengths that sound is written in.</summary>
internal static class BitsOption
{
    private static readonly SampleEncoding[] Offered = [SampleEncoding.Pcm16, SampleEncoding.Pcm24, SampleEncoding.Float32];

    public static Option<string?> Create(string description)
    {
        string[] words = [.. Offered.Select(e => e.Word())];
        var option = new Option<string?>("--bits") { Description = description, HelpName = string.Join('|', words) };
        option.AcceptOnlyFromAmong(words);
        return option;
    }

    /// <summary>What was asked for; null for nothing.</summary>
    public static SampleEncoding? Of(ParseResult parsed, Option<string?> option) =>
        parsed.GetValue(option) is { } word ? Offered.First(e => e.Word() == word) : null;
}
