using System.Numerics;

namespace DrumPrint.Dsp.Spectral;

/// <summary>Chooses the block of a <see cref="PartitionedConvolver"/>: the one that costs the least work.</summary>
internal static class ConvolutionBlock
{
    /// <summary>Longest block: keeps the latency, and with it the memory of everything that waits for it, small.</summary>
    public const int Longest = 65536;

    private const int Shortest = OddFrequencyFft.Shortest;

    // Measured in nanoseconds, with caches cold as in a whole print; only their proportion matters. A product costs what it
    // takes to bring its factors from memory.
    private const double PerTransformPoint = 0.25;
    private const double PerProduct = 2;
    private const double PerBlock = 500;

    /// <summary>Block for a filter length and a shape of the matrix. Nothing else may come in, or the same chain would not
    /// give the same bits.</summary>
    public static int For(int filterFrames, int channels, int paths)
    {
        var best = Shortest;
        var least = double.PositiveInfinity;
        for (var block = Shortest; block <= Longest; block *= 2)
        {
            var partitions = (filterFrames + block - 1) / block;
            var transforms = PerTransformPoint * channels * block * BitOperations.Log2((uint)block);
            var products = PerProduct * paths * partitions * block;
            var perFrame = (transforms + products + PerBlock) / block;
            if (perFrame < least)
            {
                (best, least) = (block, perFrame);
            }
        }

        return best;
    }
}
