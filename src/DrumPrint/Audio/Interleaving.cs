namespace DrumPrint.Audio;

/// <summary>Goes between frames, as files hold them, and channels, as blocks hold them.</summary>
internal static class Interleaving
{
    /// <summary>Takes one channel out of frames.</summary>
    public static void Take(ReadOnlySpan<double> frames, int channels, int channel, Span<double> target)
    {
        for (int n = 0, at = channel; n < target.Length; n++, at += channels)
        {
            target[n] = frames[at];
        }
    }

    /// <summary>Puts one channel into frames.</summary>
    public static void Put(ReadOnlySpan<double> source, int channels, int channel, Span<double> frames)
    {
        for (int n = 0, at = channel; n < source.Length; n++, at += channels)
        {
            frames[at] = source[n];
        }
    }
}
