namespace DrumPrint.Dsp.WordLength;

/// <summary>Rounds samples to 32-bit float, to the nearest with ties to even, as IEEE 754 has it.</summary>
public static class SingleRounding
{
    /// <summary>Rounds the frames of a block.</summary>
    /// <param name="source">The frames.</param>
    /// <param name="target">Where they go, as many: <paramref name="source"/> itself, or other memory.</param>
    public static void Process(AudioBlock source, AudioBlock target)
    {
        for (var channel = 0; channel < source.Channels; channel++)
        {
            var from = source[channel];
            var to = target[channel][..from.Length];
            for (var n = 0; n < from.Length; n++)
            {
                to[n] = (float)from[n];
            }
        }
    }
}
