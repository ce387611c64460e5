using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Spectral.Butterflies;

namespace DrumPrint.Dsp.Spectral;

/// <summary>Long filters of one length, cut into equal parts, as spectra. It never changes, so convolvers may share it.</summary>
internal sealed class PartitionedFilters
{
    private readonly LineMemory _spectra;

    /// <param name="filters">Impulse responses of one length.</param>
    /// <param name="block">Frames per part: a power of two, at least 256.</param>
    /// <param name="lanes">Numbers that a vector holds.</param>
    public PartitionedFilters(double[][] filters, int block, int lanes)
    {
        (Block, Frames, Lanes) = (block, filters[0].Length, lanes);
        Parts = (Frames + block - 1) / block;
        Stride = filters.Length * Parts * Strip.RowLength;
        var fft = new OddFrequencyFft(block);
        _spectra = new LineMemory(fft.Rows * Stride);
        var first = new double[block];
        var second = new double[block];
        for (var filter = 0; filter < filters.Length; filter++)
        {
            for (var part = 0; part < Parts; part++)
            {
                // Divided by what the inverse transform leaves in.
                var taps = filters[filter].AsSpan(part * block, Math.Min(block, Frames - (part * block)));
                Array.Clear(first);
                for (var n = 0; n < taps.Length; n++)
                {
                    first[n] = taps[n] / block;
                }

                Transform(fft, first, second, ref _spectra.Span[((filter * Parts) + part) * Strip.RowLength]);
            }
        }
    }

    /// <summary>Frames per part.</summary>
    public int Block { get; }

    /// <summary>Length of each filter.</summary>
    public int Frames { get; }

    /// <summary>Parts of each filter.</summary>
    public int Parts { get; }

    /// <summary>Numbers that a vector holds.</summary>
    public int Lanes { get; }

    /// <summary>Numbers from one row of eight bins, of all filters and parts, to the next.</summary>
    public int Stride { get; }

    /// <summary>First number of the first row. First comes the first filter, first part first.</summary>
    public ref double First => ref _spectra.First;

    private void Transform(OddFrequencyFft fft, double[] first, double[] second, ref double to)
    {
        switch (Lanes)
        {
            case 8:
                fft.Forward<Lane8>(first, second, ref to, Stride);
                break;
            case 4:
                fft.Forward<Lane4>(first, second, ref to, Stride);
                break;
            case 2:
                fft.Forward<Lane2>(first, second, ref to, Stride);
                break;
            default:
                fft.Forward<Lane1>(first, second, ref to, Stride);
                break;
        }
    }
}
