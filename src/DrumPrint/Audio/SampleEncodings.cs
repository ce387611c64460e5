namespace DrumPrint.Audio;

/// <summary>Sizes of the sample encodings.</summary>
public static class SampleEncodings
{
    /// <summary>Bits one sample takes in a file.</summary>
    public static int Bits(this SampleEncoding encoding) => 8 * encoding.Bytes();

    /// <summary>Bytes one sample takes in a file.</summary>
    public static int Bytes(this SampleEncoding encoding) => encoding switch
    {
        SampleEncoding.Pcm8 => 1,
        SampleEncoding.Pcm16 => 2,
        SampleEncoding.Pcm24 => 3,
        SampleEncoding.Pcm32 or SampleEncoding.Float32 => 4,
        SampleEncoding.Float64 => 8,
        _ => throw new ArgumentOutOfRangeException(nameof(encoding)),
    };

    /// <summary>Whether samples are floating point and may go beyond full scale.</summary>
    public static bool IsFloat(this SampleEncoding encoding) => encoding is SampleEncoding.Float32 or SampleEncoding.Float64;
}
