using DrumPrint.Comparing;

namespace DrumPrint.Bench.Serving;

/// <summary>The files of the page, which are inside the program. No file of the disk is served.</summary>
internal static class PageFiles
{
    private static readonly Dictionary<string, (string Resource, string Type)> All = new(StringComparer.Ordinal)
    {
        ["/"] = ("bench.html", "text/html; charset=utf-8"),
        ["/bench.css"] = ("bench.css", "text/css; charset=utf-8"),
        ["/page.css"] = (Shared + "page.css", "text/css; charset=utf-8"),
        ["/text.js"] = (Shared + "text.js", Script),
        ["/binomial.js"] = (Shared + "binomial.js", Script),
        ["/blind.js"] = (Shared + "blind.js", Script),
        ["/blind-test.js"] = ("blind-test.js", Script),
        ["/main.js"] = ("main.js", Script),
        ["/talk.js"] = ("talk.js", Script),
        ["/player.js"] = ("player.js", Script),
        ["/socket.js"] = ("socket.js", Script),
        ["/speaker.js"] = ("speaker.js", Script),
        ["/partner.js"] = ("partner.js", Script),
        ["/strips.js"] = ("strips.js", Script),
        ["/routing.js"] = ("routing.js", Script),
        ["/settings.js"] = ("settings.js", Script),
        ["/curves.js"] = ("curves.js", Script),
        ["/song.js"] = ("song.js", Script),
        ["/lanes.js"] = ("lanes.js", Script),
        ["/findings.js"] = ("findings.js", Script),
        ["/meters.js"] = ("meters.js", Script),
        ["/words.js"] = ("words.js", Script),
    };

    // What the comparison page has already.
    private const string Shared = "DrumPrint.Comparing.Page.";

    private const string Script = "text/javascript; charset=utf-8";

    public static IEnumerable<string> Paths => All.Keys;

    /// <summary>A file by its path; null for none.</summary>
    public static (byte[] Bytes, string Type)? Find(string path)
    {
        if (!All.TryGetValue(path, out var file))
        {
            return null;
        }

        using var stream = file.Resource.StartsWith(Shared, StringComparison.Ordinal)
            ? typeof(PageText).Assembly.GetManifestResourceStream(file.Resource)
            : typeof(PageFiles).Assembly.GetManifestResourceStream($"DrumPrint.Bench.Page.{file.Resource}");
        using var bytes = new MemoryStream();
        stream!.CopyTo(bytes);
        return (bytes.ToArray(), file.Type);
    }
}
