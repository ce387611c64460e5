using System.Net;
using DrumPrint.Audio;
using DrumPrint.Files;

namespace DrumPrint.Comparing;

/// <summary>Puts a page together from its parts, which are files of this folder's <c>Page</c>.</summary>
public static class PageText
{
    private const int FirstCharacters = 64;

    /// <summary>Whether a file is a web page, and so may be replaced by a new one.</summary>
    /// <exception cref="AudioFileException">The file cannot be read.</exception>
    public static bool IsPage(string path)
    {
        try
        {
            using var reader = new StreamReader(new FileStream(RegularFile.Open(path), FileAccess.Read));
            var start = new char[FirstCharacters];
            var count = reader.ReadBlock(start);
            return start.AsSpan(0, count).TrimStart().StartsWith("<!doctype html>", StringComparison.OrdinalIgnoreCase);
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Reading(path, e);
        }
    }

    /// <summary>A part as text, of this room's pages or of another's.</summary>
    internal static string Part(string name, string folder = "DrumPrint.Comparing.Page")
    {
        using var stream = typeof(PageText).Assembly.GetManifestResourceStream($"{folder}.{name}")!;
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }

    /// <summary>Scripts, one after the other, in one scope of their own.</summary>
    internal static string Script(params ReadOnlySpan<string> names)
    {
        var parts = new List<string>();
        foreach (var name in names)
        {
            parts.Add(Part(name));
        }

        return "(() => {\n'use strict';\n" + string.Join("\n", parts) + "})();";
    }

    /// <summary>Text as HTML.</summary>
    internal static string Html(string text) => WebUtility.HtmlEncode(text);

    /// <summary>Writes a template with its slots filled, each once.</summary>
    /// <exception cref="AudioFileException">The file cannot be written.</exception>
    internal static void Write(string path, string template, IReadOnlyDictionary<string, string> slots, FileSteps? steps = null)
    {
        try
        {
            Leftovers.Clear(Path.GetDirectoryName(Path.GetFullPath(path))!, steps ?? FileSteps.Plain);
            using var file = StagedFile.Create(path, steps: steps);
            using (var writer = new StreamWriter(file.OpenStream()) { NewLine = "\n" })
            {
                for (var at = 0; at < template.Length;)
                {
                    var open = template.IndexOf("{{", at, StringComparison.Ordinal);
                    if (open < 0)
                    {
                        writer.Write(template.AsSpan(at));
                        break;
                    }

                    var close = template.IndexOf("}}", open, StringComparison.Ordinal);
                    writer.Write(template.AsSpan(at, open - at));
                    writer.Write(slots[template[(open + 2)..close]]);
                    at = close + 2;
                }
            }

            file.Complete();
            file.Commit();
            file.FlushName();
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Writing(path, e);
        }
    }
}
