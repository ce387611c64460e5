namespace DrumPrint.Audio;

/// <summary>How the bytes of a sample are stored.</summary>
internal enum ByteOrder
{
    /// <summary>As in WAV; 8-bit samples are unsigned.</summary>
    LittleEndian,

    /// <summary>As in AIFF; 8-bit samples are signed.</summary>
    BigEndian,

    /// <summary>Little-endian in AIFF-C; 8-bit samples are signed.</summary>
    LittleEndianSigned,
}
