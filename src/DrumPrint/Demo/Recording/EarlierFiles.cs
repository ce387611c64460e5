using DrumPrint.Audio;
using DrumPrint.Language;

namespace DrumPrint.Demo.Recording;

/// <summary>Gives the session's sound files their names, except where one lies that demo did not write: that one stays.</summary>
/// <param name="others">Paths of files that are none of demo's as far as is known.</param>
internal sealed class EarlierFiles(IReadOnlySet<string> others)
{
    private readonly List<string> _kept = [];

    /// <summary>What was kept, in sentences; none when nothing was.</summary>
    public IReadOnlyList<string> Notes => _kept.Count switch
    {
        0 => [],
        1 => [$"{_kept[0]} is not as the demo writes it (edited, or of another version); kept. To have the demo's own again, move it away and run demo again, or give demo another folder."],
        _ => [$"{Show.Some(_kept)} are not as the demo writes them (edited, or of another version); kept. To have the demo's own again, move them away and run demo again, or give demo another folder."],
    };

    /// <summary>A file's place in the session, as people write it.</summary>
    public static string Place(string path) => $"{Path.GetFileName(Path.GetDirectoryName(path))}/{Path.GetFileName(path)}";

    /// <summary>Publishes a finished file, or leaves the one that is there and throws the new one away.</summary>
    public void Publish(WaveWriter writer)
    {
        // What demo has just written again to the last byte is its own, whatever the list says.
        if (!others.Contains(writer.Path) || FileHash.Sha256(writer.Path) == writer.FileSha256)
        {
            writer.Publish();
        }
        else
        {
            _kept.Add(Place(writer.Path));
            writer.Dispose();
        }
    }
}
