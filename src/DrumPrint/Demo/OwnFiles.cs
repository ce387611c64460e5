using System.Collections.Frozen;
using System.Text;

namespace DrumPrint.Demo;

/// <summary>Knows every sound file that demo writes or wrote, by its bytes.</summary>
internal static class OwnFiles
{
    private const string Resource = "DrumPrint.Demo.SlowFerry.files.sha256";

    private static readonly FrozenSet<string> Lines = Read();

    /// <summary>Whether demo wrote a file.</summary>
    /// <param name="place">Its place in the session, such as <c>raw/01_KickIn.wav</c>.</param>
    /// <param name="sha256">Hash of its bytes.</param>
    public static bool Holds(string place, string sha256) => Lines.Contains(Line(place, sha256));

    private static string Line(string place, string sha256) => $"{sha256}  {place}";

    private static FrozenSet<string> Read()
    {
        using var stream = typeof(OwnFiles).Assembly.GetManifestResourceStream(Resource)!;
        using var reader = new StreamReader(stream, Encoding.UTF8);
        return reader.ReadToEnd().Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Where(l => !l.StartsWith('#')).ToFrozenSet(StringComparer.Ordinal);
    }
}
