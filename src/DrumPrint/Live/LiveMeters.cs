using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Metering;

namespace DrumPrint.Live;

/// <summary>Measures a sum while it plays.</summary>
internal sealed class LiveMeters(int rateHz)
{
    private readonly RunningMeter _level = new(rateHz);
    private readonly BandLevels _bands = new(rateHz);
    private readonly double[] _db = new double[BandLevels.Frequencies.Count];

    public void Add(AudioBlock block)
    {
        _level.Add(block);
        _bands.Add(block);
    }

    /// <summary>What is measured now.</summary>
    public LiveReading Read()
    {
        _bands.Read(_db);
        return new LiveReading(_level.ShortTermLufs, _level.TruePeakDb, _level.CrestDb, [.. _db]);
    }
}
