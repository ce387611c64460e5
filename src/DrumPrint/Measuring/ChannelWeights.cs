using DrumPrint.Audio;

namespace DrumPrint.Measuring;

/// <summary>How much each channel of a file counts for its loudness.</summary>
/// <remarks>
/// Source: ITU-R BS.1770-5, Table 3 and Annex 3: 1.41 for loudspeakers at the side, none for low-frequency effects, 1 for all
/// others. A WAV file's header can say which channel is which. Where it does not, 5 channels are taken for L R C Ls Rs and 6
/// for L R C LFE Ls Rs. Any other number counts 1 each.
/// </remarks>
internal static class ChannelWeights
{
    private const double Side = 1.41;
    private const uint LowFrequency = 0x8;
    private const uint BackPair = 0x30;
    private const uint SidePair = 0x600;

    private static readonly double[] Five = [1, 1, 1, Side, Side];
    private static readonly double[] Six = [1, 1, 1, 0, Side, Side];

    public static double[] Of(AudioFileInfo info)
    {
        if (info.Channels <= 2)
        {
            return Plain(info.Channels);
        }

        if (uint.PopCount(info.ChannelMask) == info.Channels)
        {
            return ByMask(info.ChannelMask);
        }

        return info.Channels switch
        {
            5 => Five,
            6 => Six,
            _ => Plain(info.Channels),
        };
    }

    // Channels stand in the order of the mask's bits. Where there are loudspeakers at the side, the others are behind.
    private static double[] ByMask(uint mask)
    {
        var besides = (mask & SidePair) != 0 ? SidePair : BackPair;
        return
        [
            .. Enumerable.Range(0, 32).Select(bit => 1u << bit).Where(bit => (mask & bit) != 0).Select(bit =>
                (bit & LowFrequency) != 0 ? 0 : (bit & besides) != 0 ? Side : 1),
        ];
    }

    private static double[] Plain(int channels) => [.. Enumerable.Repeat(1.0, channels)];
}
