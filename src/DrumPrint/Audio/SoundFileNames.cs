namespace DrumPrint.Audio;

/// <summary>Tells sound files by their names.</summary>
internal static class SoundFileNames
{
    private static readonly string[] Endings = [".wav", ".wave", ".bwf", ".rf64", ".w64", ".aif", ".aiff", ".aifc"];

    /// <summary>Whether a name ends as those of sound files do.</summary>
    public static bool Has(string path) => Endings.Contains(Path.GetExtension(path), StringComparer.OrdinalIgnoreCase);
}
