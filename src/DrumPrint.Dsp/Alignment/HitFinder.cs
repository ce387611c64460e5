namespace DrumPrint.Dsp.Alignment;

/// <summary>Finds hits in one microphone as its sound comes in, block after block.</summary>
/// <remarks>Common practice, no source. None of it depends on the level of the whole.</remarks>
public sealed class HitFinder
{
    private readonly OnsetLine _whole;
    private readonly OnsetLine? _bright;
    private double _last;

    /// <param name="rateHz">Frames in a second, at least 1000.</param>
    /// <param name="hearsBright">Whether bright hits are found too; without, it takes half the memory.</param>
    public HitFinder(int rateHz, bool hearsBright = true)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(rateHz, OnsetLine.SlicesPerSecond);
        (_whole, _bright) = (new OnsetLine(rateHz), hearsBright ? new OnsetLine(rateHz) : null);
    }

    /// <summary>Hits of a recording held in memory.</summary>
    public static HitTimes Find(ReadOnlySpan<double> samples, int rateHz)
    {
        var finder = new HitFinder(rateHz);
        finder.Add(samples);
        return finder.Found();
    }

    /// <summary>Takes in the next frames.</summary>
    public void Add(ReadOnlySpan<double> samples)
    {
        while (samples.Length > 0)
        {
            var count = Math.Min(samples.Length, _whole.Missing);
            var (energy, bright, last) = (0.0, 0.0, _last);
            foreach (var sample in samples[..count])
            {
                var difference = sample - last;
                energy += sample * sample;
                bright += difference * difference;
                last = sample;
            }

            _whole.Add(count, energy);
            _bright?.Add(count, bright);
            _last = last;
            samples = samples[count..];
        }
    }

    /// <summary>Root of the mean power of the loudest 8 ms within a stretch, linear.</summary>
    /// <param name="firstFrame">Where it begins.</param>
    /// <param name="endFrame">Where it ends.</param>
    public double Loudest(long firstFrame, long endFrame) => _whole.Loudest(firstFrame, endFrame);

    /// <summary>The same of what is left after a rise of 6 dB per octave; against <see cref="Loudest"/> it tells bright from dark. 0 where
    /// bright hits are not heard.</summary>
    /// <param name="firstFrame">Where it begins.</param>
    /// <param name="endFrame">Where it ends.</param>
    public double LoudestBright(long firstFrame, long endFrame) => _bright?.Loudest(firstFrame, endFrame) ?? 0;

    /// <summary>Root of the mean power of a stretch, linear.</summary>
    /// <param name="firstFrame">Where it begins.</param>
    /// <param name="endFrame">Where it ends.</param>
    public double Level(long firstFrame, long endFrame) => _whole.Level(firstFrame, endFrame);

    /// <summary>The hits of what came in so far.</summary>
    public HitTimes Found() => new(_whole.Hits(), _bright?.Hits() ?? []);
}
