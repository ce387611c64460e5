namespace DrumPrint.Audio;

/// <summary>How a word length is written in a chain, a ticket and on the command line.</summary>
public static class EncodingWords
{
    /// <summary>16, 24 or 32f for what a print can be; the encoding's own name otherwise.</summary>
    public static string Word(this SampleEncoding encoding) => encoding switch
    {
        SampleEncoding.Pcm16 => "16",
        SampleEncoding.Pcm24 => "24",
        SampleEncoding.Float32 => "32f",
        _ => encoding.ToString(),
    };
}
