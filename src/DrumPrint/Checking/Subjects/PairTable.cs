using System.Collections.Concurrent;
using DrumPrint.Checking.Takes;
using DrumPrint.Dsp.Alignment;

namespace DrumPrint.Checking.Subjects;

/// <summary>How microphones hear the drums of others, estimated once for each pair.</summary>
internal sealed class PairTable(Windows windows)
{
    private const int Hits = 32;
    private const double RoomReachMs = 250;

    private readonly ConcurrentDictionary<(string, int?, string, int?), PairEstimate> _known = new();

    /// <summary>How much later, and which way up, another microphone hears the drum of a close one.</summary>
    public PairEstimate Of(CheckedTake close, CheckedTake other) => _known.GetOrAdd((close.Recording, close.Channel, other.Recording, other.Channel), _ => PairEstimator.Of(
        close.Figures!.Hits,
        windows.Middle(close),
        windows.Middle(other),
        close.Figures.RateHz,
        new AlignmentSearch { MostHits = Hits, LatestMs = other.Role == TakeRole.Room ? RoomReachMs : 30 }));

    /// <summary>Estimates pairs several at a time, before a rule asks for them one by one.</summary>
    public void Prepare(IEnumerable<(CheckedTake Close, CheckedTake Other)> pairs, int threads, CancellationToken cancel) =>
        Audio.ManyFiles.Do(pairs.Where(p => p.Close.Figures is not null && p.Other.Figures is not null), threads, p => Of(p.Close, p.Other), cancel);
}
