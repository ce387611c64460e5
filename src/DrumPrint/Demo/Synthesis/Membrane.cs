namespace DrumPrint.Demo.Synthesis;

/// <summary>Pitches of a struck round head.</summary>
internal static class Membrane
{
    /// <summary>Modes of an ideal round membrane against its lowest, as given by the zeros of the Bessel functions.</summary>
    /// <remarks>Source: N. H. Fletcher and T. D. Rossing, The Physics of Musical Instruments, chapter 3 (from
    /// memory).</remarks>
    public static readonly double[] Ratios = [1, 1.594, 2.136, 2.296, 2.653, 2.918, 3.156, 3.501, 3.600, 3.652, 4.060, 4.154];
}
