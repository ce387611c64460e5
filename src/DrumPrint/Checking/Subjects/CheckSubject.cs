using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Checking.Takes;
using DrumPrint.Dsp.Mixing;
using DrumPrint.Tickets;

namespace DrumPrint.Checking.Subjects;

/// <summary>All that rules look at.</summary>
internal sealed class CheckSubject : IDisposable
{
    private readonly Lazy<UnityFit?> _unity;
    private readonly Lazy<HitOwners> _owners;
    private readonly Lazy<Dictionary<string, CheckedTake>> _rawsByName;

    public CheckSubject(Chain? chain, IReadOnlyList<CheckedTake> takes, int rateHz, CancellationToken cancel)
    {
        (Chain, Takes, RateHz, Cancel) = (chain, takes, rateHz, cancel);
        Pairs = new PairTable(Windows);
        _owners = new(() => new HitOwners(takes));
        _rawsByName = new(() => takes.Where(t => t.IsRaw).GroupBy(t => t.Name).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal));
        _unity = new(() =>
        {
            var playing = Measured(TakeKind.Print).Where(p => p.Info!.Channels <= 2).ToList();
            var rough = Measured(TakeKind.Rough).FirstOrDefault(r => r.Info!.Channels <= 2);
            return playing.Count == 0 || rough is null || playing.Append(rough).Any(p => p.Figures!.RateHz != rateHz)
                ? null
                : UnityFit.Of(playing, rough, PanLaw.Mono(0, chain?.Song.PanLawDb ?? 0).Left, Windows, cancel);
        });
    }

    /// <summary>The chain; null for a folder without one.</summary>
    public Chain? Chain { get; }

    public IReadOnlyList<CheckedTake> Takes { get; }

    /// <summary>Stops what takes long.</summary>
    public CancellationToken Cancel { get; }

    /// <summary>Rate of the session.</summary>
    public int RateHz { get; }

    public TempoMap? Tempo => Chain?.Song.Tempo is { IsMissing: false } tempo ? tempo : null;

    /// <summary>Whether the files begin inside the song, as an excerpt does.</summary>
    public bool IsExcerpt => Tempo is { FirstBar: > 1 };

    /// <summary>The record beside the prints; null without one.</summary>
    public Ticket? Ticket { get; init; }

    /// <summary>Whether there is a folder of prints.</summary>
    public bool HasPrints { get; init; }

    /// <summary>Files beside the prints that belong to no delivery, by name.</summary>
    public IReadOnlyList<string> Strangers { get; init; } = [];

    /// <summary>Places where a track will meet itself out of step.</summary>
    public IReadOnlyList<ForecastComb> Combs { get; init; } = [];

    /// <summary>Gates, and what they did.</summary>
    public IReadOnlyList<GateRecord> Gates { get; init; } = [];

    public Windows Windows { get; } = new();

    public PairTable Pairs { get; }

    public HitOwners Owners => _owners.Value;

    public UnityFit? Unity => _unity.Value;

    public IReadOnlyDictionary<string, CheckedTake> RawsByName => _rawsByName.Value;

    /// <summary>Raw recordings that were read.</summary>
    public IEnumerable<CheckedTake> Raws => Measured(TakeKind.Raw);

    /// <summary>Raw recordings whose headers were read.</summary>
    public IEnumerable<CheckedTake> HeadedRaws => Takes.Where(t => t is { IsRaw: true, Info: not null });

    /// <summary>Files of the delivery that were read.</summary>
    public IEnumerable<CheckedTake> Delivered => Takes.Where(t => t is { IsDelivered: true, Figures: not null });

    /// <summary>Raw recordings and prints that were read.</summary>
    public IEnumerable<CheckedTake> Sounds => Takes.Where(t => t is { Kind: not (TakeKind.Impulse or TakeKind.Click), Figures: not null });

    /// <summary>Files of a kind that were read.</summary>
    public IEnumerable<CheckedTake> Measured(TakeKind kind) => Takes.Where(t => t.Kind == kind && t.Figures is not null);

    /// <summary>The two of each pair of raw microphones, left first, by what their names share.</summary>
    public IEnumerable<(CheckedTake Left, CheckedTake Right)> RawPairs => Raws
        .Where(t => RoleWords.Side(t.Name) != 0)
        .GroupBy(t => RoleWords.WithoutSide(t.Name), StringComparer.Ordinal)
        .Where(g => g.Count() == 2 && g.Sum(t => RoleWords.Side(t.Name)) == 0)
        .Select(g => (g.First(t => RoleWords.Side(t.Name) < 0), g.First(t => RoleWords.Side(t.Name) > 0)));

    /// <summary>The microphone a drum is asked of: the one that stands at its batter head, as far as names tell.</summary>
    public CheckedTake? First(TakeRole role) => Raws.Where(t => t.Role == role && t.Figures!.RateHz == RateHz).OrderBy(t => t.Figures!.Hits.Hits.Count > 2 ? 0 : 1).ThenBy(t => RoleWords.Rank(t.Name)).FirstOrDefault();

    /// <summary>Frames of the delay that the chain gives a raw track, its latency left aside.</summary>
    public long OwnDelayFrames(CheckedTake take) => take.Track?.Delay.ToFrames(RateHz, Chain!.Song.TemperatureC) ?? 0;

    /// <summary>Frames by which a raw track, without its latency, is delayed.</summary>
    public long DelayFrames(CheckedTake take) => take.Track?.Wait(RateHz, Chain!.Song.TemperatureC).ToFrames(RateHz, Chain.Song.TemperatureC) ?? 0;

    public void Dispose() => Windows.Dispose();
}
