namespace DrumPrint.Audio;

/// <summary>Tells sound files by their names, where opening every file would take too long.</summary>
public static class AudioFileName
{
    private static readonly string[] Endings = [".wav", ".wave", ".bwf", ".rf64", ".w64", ".aif", ".aiff", ".aifc", ".flac"];

    /// <summary>Whether a file is called like a sound file that can be read here.</summary>
    /// <param name="path">The file.</param>
    public static bool IsLikely(string path) =>
        Endings.Contains(Path.GetExtension(path), StringComparer.OrdinalIgnoreCase) && !Path.GetFileName(path).StartsWith('.');
}
