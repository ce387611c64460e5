namespace DrumPrint.Audio;

/// <summary>How a file stores one sample.</summary>
public enum SampleEncoding
{
    Pcm8,
    Pcm16,
    Pcm24,
    Pcm32,
    Float32,
    Float64,
}
