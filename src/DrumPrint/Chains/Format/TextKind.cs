namespace DrumPrint.Chains.Format;

/// <summary>What a text stands for.</summary>
internal enum TextKind
{
    /// <summary>Words for people.</summary>
    Title,

    /// <summary>A part of a file name.</summary>
    FileNamePart,

    /// <summary>How file names are made; see <see cref="NamePattern"/>.</summary>
    NamePattern,

    /// <summary>A path relative to the chain file.</summary>
    Path,

    /// <summary>The name of a track or bus.</summary>
    Source,

    /// <summary>The name of a bus.</summary>
    Bus,

    /// <summary>Beats and note value, such as 4/4.</summary>
    Metre,

    /// <summary>A SHA-256 in lower-case hexadecimal.</summary>
    Sha256,
}
