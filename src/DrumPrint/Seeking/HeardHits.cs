using DrumPrint.Dsp;
using DrumPrint.Dsp.Alignment;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Seeking;

/// <summary>A hit in a signal on its way through a chain.</summary>
/// <param name="Ms">Millisecond of the song at which it begins.</param>
/// <param name="EndMs">Millisecond at which the next one begins, or the signal ends.</param>
/// <param name="Db">Its highest level within 40 ms.</param>
internal readonly record struct HeardHit(int Ms, int EndMs, double Db);

/// <summary>Finds the hits of a signal of one or two channels.</summary>
/// <param name="rateHz">Frames in a second.</param>
/// <param name="channels">1 or 2.</param>
/// <param name="latency">Frames by which it lags song time.</param>
/// <param name="frames">Frames of the song that count.</param>
internal sealed class HeardHits(int rateHz, int channels, long latency, long frames)
{
    private const int BeforeMs = 3;
    private const int PeakMs = 40;
    private const int ApartMs = 40;

    private readonly HitFinder[] _finders = [.. Enumerable.Range(0, channels).Select(_ => new HitFinder(rateHz, hearsBright: false))];
    private long _frame = -latency;

    /// <summary>Listens to the next block.</summary>
    public void Add(AudioBlock block)
    {
        var skip = (int)Math.Clamp(-_frame, 0, block.Frames);
        var end = (int)Math.Clamp(frames - _frame, skip, block.Frames);
        _frame += block.Frames;
        for (var channel = 0; channel < channels && end > skip; channel++)
        {
            _finders[channel].Add(block[channel][skip..end]);
        }
    }

    /// <summary>The hits, in order of time; what two sides hear at once is one.</summary>
    /// <param name="levels">Highest level of each millisecond, linear.</param>
    public IReadOnlyList<HeardHit> Of(ReadOnlySpan<float> levels)
    {
        var starts = new List<int>();
        foreach (var ms in _finders.SelectMany(f => f.Found().Hits).Select(h => (int)(h.Frame * 1000 / rateHz)).Order())
        {
            if (starts.Count == 0 || ms - starts[^1] >= ApartMs)
            {
                starts.Add(ms);
            }
        }

        var hits = new List<HeardHit>();
        for (var i = 0; i < starts.Count; i++)
        {
            var next = i + 1 < starts.Count ? starts[i + 1] : levels.Length;
            hits.Add(new HeardHit(starts[i], next, Highest(levels, starts[i], next)));
        }

        return hits;
    }

    /// <summary>The highest level of a hit, in dB.</summary>
    public static double Highest(ReadOnlySpan<float> levels, int startMs, int endMs)
    {
        var highest = 0f;
        for (var ms = Math.Max(0, startMs - BeforeMs); ms < Math.Min(levels.Length, Math.Min(endMs - BeforeMs, startMs + PeakMs)); ms++)
        {
            highest = Math.Max(highest, levels[ms]);
        }

        return Decibels.FromGain(highest);
    }
}
