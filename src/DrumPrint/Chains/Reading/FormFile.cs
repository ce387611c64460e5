using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>Reads a whole file against the declaration of its keys.</summary>
internal static class FormFile
{
    // What else of ours ends in .json, and what to do with it where a chain is wanted.
    private static readonly (string Key, string Says)[] NoChains =
    [
        ("ticket", "this is a ticket, the record of prints that were made, and no chain. To make them again: drumprint reprint {0}"),
        ("recipe", "this is a recipe and no chain. The chain of a song names it in use; give that chain instead."),
        ("tempo_map", "this is a tempo map and no chain. A chain names it in song.tempo; give that chain instead."),
    ];

    /// <summary>What the file gives; null when it is not JSON, not a group of keys or of another format, after telling so.</summary>
    /// <param name="utf8">The bytes of the file.</param>
    /// <param name="shape">What it must be.</param>
    /// <param name="format">The key that names its format.</param>
    /// <param name="what">What a message calls it.</param>
    /// <param name="form">Reads the values.</param>
    /// <param name="problems">Gathers the mistakes.</param>
    /// <param name="file">The file, where it is not that of the problems.</param>
    /// <exception cref="UsageException">A chain is wanted, and the file is a ticket or a tempo map.</exception>
    public static Values? Read(byte[] utf8, Shape shape, NumberParameter format, string what, FormReader form, ProblemList problems, string? file = null)
    {
        TreeNode root;
        try
        {
            root = JsonTree.Read(utf8, file);
        }
        catch (JsonSyntaxException syntax)
        {
            problems.Add(syntax.Position with { File = file }, syntax.Place, syntax.Message);
            return null;
        }

        if (root is not ObjectNode group)
        {
            problems.Add(root.Position, "", $"a {what} is a group of keys in {{ }}; this file holds {NodeWords.Kind(root)}.");
            return null;
        }

        if (format == ChainKeys.Chain && !group.Members.Any(m => m.Name == format.Key && m.Value is NumberNode) && NoChains.FirstOrDefault(k => group.Members.Any(m => m.Name == k.Key && m.Value is NumberNode)) is { Says: { } says })
        {
            throw new UsageException($"{problems.File}: {says.Replace("{0}", problems.File, StringComparison.Ordinal)}");
        }

        // A file of a later format is no collection of mistakes, so nothing else is said about it.
        if (group.Members.FirstOrDefault(m => m.Name == format.Key)?.Value is NumberNode { Number: var number } node
            && (number < format.Minimum || number > format.Maximum))
        {
            problems.Add(node.Position, format.Key, $"this {what} is written in format {Show.Number(number)}; this version reads {Formats(format)}.");
            return null;
        }

        return form.Read(shape, root, root.Position, "");
    }

    private static string Formats(NumberParameter format) => format.Minimum < format.Maximum
        ? $"formats {Show.Number(format.Minimum)} to {Show.Number(format.Maximum)}"
        : $"format {Show.Number(format.Maximum)}";
}
