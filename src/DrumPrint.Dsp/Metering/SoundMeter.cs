namespace DrumPrint.Dsp.Metering;

/// <summary>Every meter at once, in one pass over a sound.</summary>
/// <remarks>Memory does not depend on length, apart from 1.6 kB for each second of the first two hours (the loudness and the energy of every
/// 10 ms) and 160 bytes for each second beyond.
/// The same sound gives the same figures to the last bit, wherever blocks are cut.</remarks>
public sealed class SoundMeter
{
    // Below this the weighting of BS.1770 has no meaning: its shelf lies at 1.7 kHz.
    private const int LowestLoudnessRate = 8000;
    private const double AbsoluteGateLufs = -70;

    private readonly AudioFormat _format;
    private readonly LoudnessMeter? _loudness;
    private readonly TruePeakMeter _truePeak;
    private readonly LevelMeter _level;
    private readonly EnvelopeMeter _envelope;

    /// <param name="format">Rate and any number of channels.</param>
    /// <param name="frames">Longest sound in frames; loudness beyond is not heard.</param>
    /// <param name="weights">How much each channel counts for loudness; 1 each when left out.</param>
    public SoundMeter(AudioFormat format, long frames, IReadOnlyList<double>? weights = null)
    {
        _format = format;
        _loudness = format.SampleRate >= LowestLoudnessRate ? new LoudnessMeter(format, frames, weights) : null;
        _truePeak = new TruePeakMeter(format);
        _level = new LevelMeter(format);
        _envelope = new EnvelopeMeter(format);
    }

    /// <summary>Listens to the next block.</summary>
    public void Add(AudioBlock block)
    {
        _loudness?.Add(block);
        _truePeak.Add(block);
        _level.Add(block);
        _envelope.Add(block);
    }

    /// <summary>The figures for what was heard.</summary>
    public SoundReading Read()
    {
        var shortTerm = Stated(_loudness?.ShortTermMaxLufs);
        return new SoundReading
        {
            IntegratedLufs = Stated(_loudness?.IntegratedLufs),
            ShortTermMaxLufs = shortTerm,
            MomentaryMaxLufs = Stated(_loudness?.MomentaryMaxLufs),
            RangeLu = shortTerm >= AbsoluteGateLufs ? _loudness?.RangeLu : null,
            TruePeakDbtp = Stated(_truePeak.PeakDb),
            SamplePeakDbfs = Stated(_level.PeakDb),
            RmsDbfs = Stated(_level.RmsDb),
            CrestDb = double.IsFinite(_level.RmsDb) ? _level.CrestDb : null,
            Dc = _level.Frames > 0 ? Enumerable.Range(0, _format.Channels).Select(_level.OffsetOf).MaxBy(Math.Abs) : null,
            Correlation = _format.Channels == 2 && _level.PeakOf(0) > 0 && _level.PeakOf(1) > 0 ? _level.Correlation : null,
            DecayS = _envelope.DecayS,
            ActiveShare = _envelope.ActiveShare,
        };
    }

    private static double? Stated(double? value) => value is { } v && double.IsFinite(v) ? v : null;
}
