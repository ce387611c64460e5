namespace DrumPrint.Dsp.Alignment;

/// <summary>The energy of a sound in slices of a millisecond, and the places where it rises.</summary>
/// <remarks>A hit begins where the energy of the next 5 ms is 6 dB over that of the 20 ms before. Its place is where the energy
/// rises most within 10 ms. It counts within 40 dB of the loudest 10 ms. Hits within 40 ms of each other are one.</remarks>
internal sealed class OnsetLine
{
    public const int SlicesPerSecond = 1000;

    private const int Ahead = 5;
    private const int Behind = 20;
    private const int Judged = 10;
    private const int Apart = 40;
    private const int LoudSlices = 8;
    private const double Rise = 4; // 6 dB
    private const double Floor = 1e-4; // −40 dB
    private const double Quiet = 1e-7; // −70 dB, so that silence before a hit divides

    private readonly int _rateHz;
    private readonly SliceList _slices = new();
    private double _energy;
    private long _frame;
    private long _next;

    public OnsetLine(int rateHz)
    {
        _rateHz = rateHz;
        _next = FrameAt(1);
    }

    /// <summary>Frames that the present slice still takes.</summary>
    public int Missing => (int)(_next - _frame);

    /// <summary>Takes in frames of the present slice, no more than are missing.</summary>
    public void Add(int frames, double energy)
    {
        _energy += energy;
        _frame += frames;
        if (_frame == _next)
        {
            _slices.Add(_energy);
            _energy = 0;
            _next = FrameAt(_slices.Count + 1);
        }
    }

    /// <summary>The hits so far, in order of time.</summary>
    public IReadOnlyList<Hit> Hits()
    {
        var slices = _slices.Count;
        var loudest = 0.0;
        for (var i = 0; i < slices; i++)
        {
            loudest = Math.Max(loudest, Mean(i, Judged));
        }

        var hits = new List<Hit>();
        if (loudest == 0)
        {
            return hits;
        }

        for (var i = 0; i + Judged <= slices; i++)
        {
            if (RiseAt(i, loudest) < Rise || Mean(i, Judged) < loudest * Floor)
            {
                continue;
            }

            var best = i;
            for (var j = i + 1; j <= i + Judged && j + Judged <= slices; j++)
            {
                best = RiseAt(j, loudest) > RiseAt(best, loudest) ? j : best;
            }

            hits.Add(new Hit(FrameAt(best), Math.Sqrt(Mean(best, Judged) * SlicesPerSecond / _rateHz)));
            i = best + Apart - 1;
        }

        return hits;
    }

    /// <summary>Root of the mean power of the loudest 8 ms within a stretch.</summary>
    public double Loudest(long firstFrame, long endFrame)
    {
        var (first, last) = (SliceAt(firstFrame), SliceAt(endFrame));
        var loudest = Mean(first, LoudSlices);
        for (var slice = first + 1; slice + LoudSlices <= last; slice++)
        {
            loudest = Math.Max(loudest, Mean(slice, LoudSlices));
        }

        return Math.Sqrt(loudest * SlicesPerSecond / _rateHz);
    }

    /// <summary>Root of the mean power of a stretch.</summary>
    public double Level(long firstFrame, long endFrame)
    {
        var (first, last) = (SliceAt(firstFrame), SliceAt(endFrame));
        return Math.Sqrt(Mean(first, last - first) * SlicesPerSecond / _rateHz);
    }

    private int SliceAt(long frame) => (int)(frame * SlicesPerSecond / _rateHz);

    private double RiseAt(int slice, double loudest) => Mean(slice, Ahead) / (Mean(slice - Behind, Behind) + (loudest * Quiet));

    private double Mean(int from, int count)
    {
        var (first, last) = (Math.Clamp(from, 0, _slices.Count), Math.Clamp(from + count, 0, _slices.Count));
        return last <= first ? 0 : _slices.Sum(first, last) / (last - first);
    }

    private long FrameAt(long slice) => slice * _rateHz / SlicesPerSecond;
}
