using DrumPrint.Dsp.Alignment;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Listening;

/// <summary>What a hit is to a microphone.</summary>
internal enum HitSort
{
    /// <summary>Its own drum, played out.</summary>
    Hit,

    /// <summary>Its own drum, more than 12 dB below a typical hit.</summary>
    Ghost,

    /// <summary>Another drum.</summary>
    Spill,
}

/// <summary>One hit as a gate's key would meet it.</summary>
/// <param name="Frame">Where it begins.</param>
/// <param name="PeakDb">Its highest sample within 40 ms, in dB of full scale.</param>
/// <param name="Sort">What it is.</param>
internal readonly record struct LevelledHit(long Frame, double PeakDb, HitSort Sort);

/// <summary>The levels of hits, ghosts and spill in one microphone, so that a threshold is read and not guessed.</summary>
/// <param name="Hits">All of them, in order of time.</param>
internal sealed record HitLevels(IReadOnlyList<LevelledHit> Hits)
{
    private const double OwnDb = 3;
    private const double GhostDb = -12;
    private const double GhostClearDb = 6;
    private const double BeforeS = 0.003;
    private const double PeakS = 0.040;
    private const double SettleS = 0.020;
    private const double LowestPart = 0.1;
    private const double LoudSpill = 0.95;

    /// <summary>The level in dB that a part of a sort, the quietest, lies below; null where there are none.</summary>
    public double? Quantile(HitSort sort, double part)
    {
        double[] levels = [.. Hits.Where(h => h.Sort == sort).Select(h => h.PeakDb).Order()];
        return levels.Length == 0 ? null : levels[(int)((levels.Length - 1) * part)];
    }

    /// <summary>How many there are of a sort.</summary>
    public int Count(HitSort sort) => Hits.Count(h => h.Sort == sort);

    /// <summary>A threshold in dB, to a half, a third of the way from loud spill up to soft hits. Null where the two overlap or
    /// hits are missing.</summary>
    public double? OpenDb()
    {
        if (Quantile(HitSort.Hit, LowestPart) is not { } soft)
        {
            return null;
        }

        var loud = Quantile(HitSort.Spill, LoudSpill) ?? soft - 18;
        loud = Math.Max(loud, soft - 24);
        return soft - loud < 3 ? null : Math.Round(2 * (loud + ((soft - loud) / 3)), MidpointRounding.AwayFromZero) / 2;
    }

    /// <summary>Measures a microphone of a take.</summary>
    /// <param name="take">The take.</param>
    /// <param name="drums">Close microphones of each drum.</param>
    /// <param name="drum">The drum.</param>
    /// <param name="microphone">Its microphone.</param>
    /// <param name="key">Filters of the gate's key, in order; none to measure the whole sound.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancel">Stops between blocks.</param>
    public static HitLevels Of(
        Take take, IReadOnlyList<IReadOnlyList<int>> drums, int drum, int microphone, IReadOnlyList<BiquadCoefficients> key, Action<string, double> progress, CancellationToken cancel)
    {
        var (kit, rate) = (take.Kit, take.RateHz);
        var clear = kit.ClearanceDb(drums, drum, microphone);
        var (settle, length) = ((int)(SettleS * rate), (int)((BeforeS + PeakS) * rate));
        List<int> heard = [.. Enumerable.Range(0, clear.Length).Where(h => kit.OnsetFrame(microphone, h) >= 0 || clear[h] < OwnDb)];
        (long From, int Frames) Stretch(int hit) => (kit.Frames[hit] - (long)(BeforeS * rate) - settle, settle + length);
        var read = take.Read([.. Enumerable.Range(0, take.Microphones.Count).Select(m => m == microphone ? heard.ConvertAll(Stretch) : [])], progress, cancel)[microphone];
        var line = new double[settle + length];
        var result = new List<LevelledHit>();
        foreach (var hit in heard)
        {
            read.Read(Stretch(hit).From, line);
            new FilterCascade([.. key]).Process(line);
            var peak = 0.0;
            foreach (var sample in line.AsSpan(settle))
            {
                peak = Math.Max(peak, Math.Abs(sample));
            }

            result.Add(new LevelledHit(kit.Frames[hit], Decibels.FromGain(peak + 1e-9), SortOf(kit, microphone, hit, clear[hit])));
        }

        return new HitLevels(result);
    }

    /// <summary>Whose hit it is. What falls together with another drum is the louder of the two.</summary>
    /// <param name="kit">The take.</param>
    /// <param name="microphone">Who hears it.</param>
    /// <param name="hit">Its number.</param>
    /// <param name="clearDb">How clearly it is the microphone's own: <see cref="KitHits.ClearanceDb"/>.</param>
    public static HitSort SortOf(KitHits kit, int microphone, int hit, double clearDb)
    {
        var isSoft = kit.RelativeDb(microphone, hit) < GhostDb;
        return clearDb < (isSoft ? GhostClearDb : OwnDb) ? HitSort.Spill : isSoft ? HitSort.Ghost : HitSort.Hit;
    }
}
