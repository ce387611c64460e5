namespace DrumPrint.Audio;

/// <summary>Which hashes a reader takes of what passes it. Each SHA-256 costs more than reading the file.</summary>
[Flags]
public enum AudioHashes
{
    /// <summary>None.</summary>
    None = 0,

    /// <summary>SHA-256 of the samples: <see cref="AudioReader.AudioSha256"/>.</summary>
    Samples = 1,

    /// <summary>SHA-256 of the whole file: <see cref="AudioReader.FileSha256"/>.</summary>
    File = 2,

    /// <summary>A quick hash of the samples, which tells whether they are still those of an earlier reading:
    /// <see cref="AudioReader.Likeness"/>.</summary>
    Likeness = 4,
}
