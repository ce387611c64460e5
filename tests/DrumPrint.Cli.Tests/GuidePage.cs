using System.Text.RegularExpressions;

namespace DrumPrint.Cli.Tests;

/// <summary>A page of the user's guide, as the steps that a reader follows.</summary>
/// <remarks>A block marked <c>console</c> holds commands after <c>$ </c>. Lines under a command are quoted from its output; <c>…</c>
/// alone stands for what is left out. <c># exit N</c> names another exit code than 0. A block marked <c>diff FILE</c> is an edit
/// of that file.</remarks>
internal sealed partial class GuidePage
{
    private const string Prompt = "$ ";
    private const string Program = "drumprint";
    private const string Exit = "# exit ";

    private GuidePage(string name, string file)
    {
        Name = name;
        Text = File.ReadAllText(file).ReplaceLineEndings("\n");
        Blocks = [.. Fence().Matches(Text).Select(m => new GuideBlock(m.Groups["kind"].Value.Trim(), m.Groups["body"].Value.TrimEnd('\n').Split('\n')))];
        Steps = [.. Blocks.SelectMany(StepsOf)];
    }

    public static IReadOnlyList<GuidePage> All { get; } =
        [.. Directory.GetFiles(Repository.File("docs", "guide"), "*.md").Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal).Select(n => new GuidePage(n, Repository.File("docs", "guide", n)))];

    /// <summary>The page that lies beside the program in an archive.</summary>
    public static GuidePage Archive { get; } = new("README.md of an archive", Repository.File("tools", "archive", "README.md"));

    public string Name { get; }

    public string Text { get; }

    public IReadOnlyList<GuideBlock> Blocks { get; }

    public IReadOnlyList<GuideStep> Steps { get; }

    public IEnumerable<GuideCommand> Commands => Steps.OfType<GuideCommand>();

    /// <summary>Where links and pictures lead, but for the web.</summary>
    public IEnumerable<string> Links => Link().Matches(Text).Select(m => m.Groups[1].Value).Where(l => !l.Contains("://", StringComparison.Ordinal));

    /// <summary>Commands within the text; a name alone is none.</summary>
    public IEnumerable<string> CommandsInText =>
        Code().Matches(Fence().Replace(Text, "")).Select(m => OneLine(m.Groups[1].Value)).Where(c => c.Contains(' ', StringComparison.Ordinal));

    public static string[] Words(string line) => [.. Word().Matches(line).Select(m => m.Groups[1].Success ? m.Groups[1].Value : m.Value)];

    public static string OneLine(string text) => Spaces().Replace(text, " ").Trim();

    private IEnumerable<GuideStep> StepsOf(GuideBlock block)
    {
        var kind = block.Kind.Split(' ', 2);
        return kind[0] switch
        {
            "console" => CommandsOf(block),
            "diff" => [new GuideEdit(kind[1], Marked(block, '-'), Marked(block, '+'))],
            _ => [],
        };
    }

    private static string[] Marked(GuideBlock block, char mark) => [.. block.Lines.Where(l => l.StartsWith(mark)).Select(l => l[1..].Trim())];

    private List<GuideCommand> CommandsOf(GuideBlock block)
    {
        List<GuideCommand> commands = [];
        foreach (var line in block.Lines.Select(OneLine).Where(l => l.Length > 0 && l != "…"))
        {
            if (line.StartsWith(Prompt, StringComparison.Ordinal))
            {
                var words = Words(line[Prompt.Length..]);
                Assert.True(words[0] == Program, $"{Name}: '{line}' is no command of {Program}.");
                commands.Add(new GuideCommand(words[1..], 0, []));
                continue;
            }

            Assert.True(commands.Count > 0, $"{Name}: '{line}' stands above the first command of its block.");
            commands[^1] = line.StartsWith(Exit, StringComparison.Ordinal)
                ? commands[^1] with { ExitCode = int.Parse(line[Exit.Length..], System.Globalization.CultureInfo.InvariantCulture) }
                : commands[^1] with { Quoted = [.. commands[^1].Quoted, line] };
        }

        return commands;
    }

    [GeneratedRegex(@"^```(?<kind>[^\n]*)\n(?<body>.*?)^```$", RegexOptions.Singleline | RegexOptions.Multiline)]
    private static partial Regex Fence();

    [GeneratedRegex(@"\]\(([^)#]+)(?:#[^)]*)?\)")]
    private static partial Regex Link();

    [GeneratedRegex(@"`drumprint ([^`]+)`")]
    private static partial Regex Code();

    [GeneratedRegex("\"([^\"]*)\"|\\S+")]
    private static partial Regex Word();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();
}

/// <summary>A fenced block.</summary>
/// <param name="Kind">What stands behind its first fence.</param>
/// <param name="Lines">What it holds.</param>
internal sealed record GuideBlock(string Kind, IReadOnlyList<string> Lines);

/// <summary>Something a reader does.</summary>
internal abstract record GuideStep;

/// <summary>A command that a reader types.</summary>
/// <param name="Arguments">Its words without the program's name.</param>
/// <param name="ExitCode">What it ends with.</param>
/// <param name="Quoted">Lines of its output, in order.</param>
internal sealed record GuideCommand(string[] Arguments, int ExitCode, IReadOnlyList<string> Quoted) : GuideStep;

/// <summary>Lines of a file that a reader replaces.</summary>
internal sealed record GuideEdit(string File, IReadOnlyList<string> Old, IReadOnlyList<string> New) : GuideStep;
