using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Masking;

/// <summary>The way from a key to a microphone, by bands, learnt from what was seen lately: how loud the key's power came out here against what
/// it is there.</summary>
/// <remarks>
/// <para>A moment weighs as much as the key's power. So the key's own hits count, and what its microphone hears of others hardly does. A moment
/// that is louder here than can be believed is another drum's, and tells nothing. Of the rest a quantile a little below the middle counts, for
/// other sounds only add.</para>
/// <para>Weights are whole numbers, so what is forgotten leaves nothing behind.</para>
/// </remarks>
internal sealed class SpillWay
{
    // One decibel each, from −80 dB up.
    private const int Cells = 128;
    private const double LowestDb = -80;
    private const double Lowest = 1e-30;
    private const double Quantile = 0.4;

    // What full scale weighs; −96 dB weighs 1.
    private const double FullScale = uint.MaxValue;

    private readonly int _bands;
    private readonly double _most;
    private readonly long[] _weights;
    private readonly long[] _sums;
    private readonly byte[] _cells;
    private readonly uint[] _kept;
    private int _at;

    /// <param name="bands">Bands.</param>
    /// <param name="moments">How many moments are remembered.</param>
    /// <param name="most">The loudest way that is believed, as power.</param>
    public SpillWay(int bands, int moments, double most)
    {
        (_bands, _most) = (bands, most);
        _weights = new long[bands * Cells];
        _sums = new long[bands];
        _cells = new byte[bands * moments];
        _kept = new uint[bands * moments];
    }

    /// <summary>Adds a moment, and forgets the oldest.</summary>
    /// <param name="here">Power in the microphone, by band.</param>
    /// <param name="there">Power of the key, by band; 0 for a band that tells nothing.</param>
    public void Add(ReadOnlySpan<double> here, ReadOnlySpan<double> there)
    {
        for (var band = 0; band < _bands; band++)
        {
            var place = _at + band;
            Weigh(band, _cells[place], -(long)_kept[place]);
            var weight = here[band] <= _most * there[band] ? (uint)Math.Min(FullScale, there[band] * FullScale) : 0;
            _kept[place] = weight;
            if (weight > 0)
            {
                var db = 10 * Elementary.Log10(Math.Max(Lowest, here[band] / there[band]));
                _cells[place] = (byte)Math.Clamp(db - LowestDb, 0, Cells - 1);
                Weigh(band, _cells[place], weight);
            }
        }

        _at = _at + _bands == _kept.Length ? 0 : _at + _bands;
    }

    /// <summary>Reads the way, as power; 0 where nothing is known.</summary>
    public void Read(Span<double> way)
    {
        for (var band = 0; band < _bands; band++)
        {
            var gain = _sums[band] > 0 ? Decibels.ToGain(Db(band)) : 0;
            way[band] = gain * gain;
        }
    }

    private void Weigh(int band, int cell, long weight)
    {
        _weights[(band * Cells) + cell] += weight;
        _sums[band] += weight;
    }

    // The quantile in decibels; within its cell weights count as spread evenly.
    private double Db(int band)
    {
        var weights = _weights.AsSpan(band * Cells, Cells);
        var wanted = Quantile * _sums[band];
        var (cell, below) = (0, 0L);
        while (below + weights[cell] < wanted)
        {
            below += weights[cell++];
        }

        return LowestDb + cell + ((wanted - below) / weights[cell]);
    }
}
