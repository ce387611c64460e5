namespace DrumPrint.Audio;

/// <summary>How a word length is written in a chain, a ticket and on the command line.</summary>
public static class EncodingWords
{
    /// <summary>Bits, with an f for floating point: 24, 32f.</summary>
    public static string Word(this SampleEncoding encoding) => encoding switch
    {
        SampleEncoding.Pcm8 => "8",
        SampleEncoding.Pcm16 => "16",
        SampleEncoding.Pcm24 => "24",
        SampleEncoding.Pcm32 => "32",
        SampleEncoding.Float32 => "32f",
        _ => "64f",
    };
}
