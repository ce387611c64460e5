namespace DrumPrint.Audio;

/// <summary>Numbers of the wave format header.</summary>
internal static class WaveFormats
{
    public const int Pcm = 1;
    public const int Float = 3;
    public const int Extensible = 0xFFFE;

    /// <summary>Length of a format chunk that ends after bits per sample.</summary>
    public const int BasicBytes = 16;

    /// <summary>Length of an extensible format chunk.</summary>
    public const int ExtensibleBytes = 40;

    /// <summary>Bytes 2 to 15 of the identifier of an extensible sub-format; the first two are the format tag.</summary>
    public static ReadOnlySpan<byte> SubFormatTail => [0x00, 0x00, 0x00, 0x00, 0x10, 0x00, 0x80, 0x00, 0x00, 0xAA, 0x00, 0x38, 0x9B, 0x71];

    /// <summary>Loudspeakers for which a number of channels is meant when nothing else is said.</summary>
    public static uint ChannelMask(int channels) => channels switch
    {
        1 => 0x4,
        2 => 0x3,
        4 => 0x33,
        6 => 0x3F,
        8 => 0xFF,
        _ => 0,
    };

    public static string Name(int tag) => tag switch
    {
        2 or 0x11 => "ADPCM",
        6 => "A-law",
        7 => "mu-law",
        0x50 or 0x55 => "MPEG audio",
        0xFF or 0x1600 or 0x1610 => "AAC",
        _ => $"format number {tag}",
    };
}
