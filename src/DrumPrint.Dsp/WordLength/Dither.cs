namespace DrumPrint.Dsp.WordLength;

/// <summary>Noise added before samples are rounded to fewer bits.</summary>
public enum Dither
{
    None,

    /// <summary>Triangular, from −1 to +1 step: the least noise that leaves neither distortion nor noise that moves with
    /// the music.</summary>
    Tpdf,
}
