using DrumPrint.Dsp.Alignment;
using DrumPrint.Listening;

namespace DrumPrint.Aligning;

/// <summary>Estimates every pair of a kit that matters, in one reading of the files.</summary>
internal static class PairListener
{
    private const double MarginMs = 64;
    private const double RunUpMs = 16;
    private const double CompanionConfidence = 0.4;

    // How far a microphone can be: 0.9 m round a drum, 2.7 m over a kit, 12 m through a room.
    private static readonly AlignmentSearch AtDrum = new() { EarliestMs = -2.6, LatestMs = 2.6 };
    private static readonly AlignmentSearch OverKit = new() { EarliestMs = -0.5, LatestMs = 8 };
    private static readonly AlignmentSearch AcrossKit = new() { EarliestMs = -1, LatestMs = 6 };
    private static readonly AlignmentSearch InRoom = new() { EarliestMs = 0, LatestMs = 35 };

    /// <summary>Estimates pairs.</summary>
    /// <param name="take">The take.</param>
    /// <param name="places">What each microphone is taken for.</param>
    /// <param name="isWanted">Which microphones are held against the drums, beside those at the drums.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancel">Stops between blocks.</param>
    public static IReadOnlyList<HeardPair> Listen(Take take, IReadOnlyList<Place> places, Func<int, bool> isWanted, Action<string, double> progress, CancellationToken cancel)
    {
        List<List<int>> drums = [.. Enumerable.Range(0, places.Count).Where(m => places[m].IsClose && places[m].IsSure).GroupBy(m => places[m].Drum).Select(g => g.ToList())];
        var pairs = new List<(int Drum, int Reference, int Other, MicrophoneKind Kind, ChosenHits Hits)>();
        for (var d = 0; d < drums.Count; d++)
        {
            var reference = Reference(drums[d], places);
            var hits = ChosenHits.Of(take.Kit, drums, d, reference);
            foreach (var other in Enumerable.Range(0, places.Count).Where(m => m != reference))
            {
                MicrophoneKind? kind = drums[d].Contains(other) ? MicrophoneKind.SameDrum
                    : places[other].IsClose && places[other].IsSure ? MicrophoneKind.OtherDrum
                    : !isWanted(other) || !places[other].IsSure ? null
                    : places[other].Role == Role.Overhead ? MicrophoneKind.Overhead
                    : places[other].Role is Role.Room or Role.Kit ? MicrophoneKind.Room : null;
                if (kind is { } where)
                {
                    pairs.Add((d, reference, other, where, hits));
                }
            }
        }

        var wanted = take.Microphones.Select((_, m) => Wanted(m, take.RateHz, pairs)).ToList();
        var heard = take.Read(wanted, progress, cancel);
        var results = new HeardPair[pairs.Count];
        void Estimate(IEnumerable<int> which, Func<int, IReadOnlyList<double>> notAt) =>
            Parallel.ForEach(which, new ParallelOptions { CancellationToken = cancel, MaxDegreeOfParallelism = Environment.ProcessorCount }, i =>
            {
                var (_, reference, other, kind, hits) = pairs[i];
                var found = PairEstimator.Of(hits, heard[reference].Read, heard[other].Read, take.RateHz, Search(kind) with { NotAtFrames = notAt(i) });
                results[i] = new HeardPair(places[reference].Drum, reference, other, kind, found);
            });

        // Drums that are hit alone first. What they reach others by is not taken for those that are hit with them.
        var alone = Enumerable.Range(0, pairs.Count).Where(i => pairs[i].Hits.Companions.Count == 0).ToList();
        Estimate(alone, _ => []);
        Estimate(Enumerable.Range(0, pairs.Count).Except(alone), i => [.. pairs[i].Hits.Companions.Select(d => Between(d, pairs[i].Reference, pairs[i].Other)).OfType<double>()]);
        return [.. results.Where(r => r.Kind != MicrophoneKind.OtherDrum)];

        double? Between(int drum, int reference, int other) => To(drum, other) - To(drum, reference);

        double? To(int drum, int microphone)
        {
            var pair = pairs.FindIndex(p => p.Drum == drum && p.Other == microphone);
            return pairs.Exists(p => p.Drum == drum && p.Reference == microphone) ? 0
                : pair >= 0 && results[pair] is { Found: { Confidence: >= CompanionConfidence } found } ? found.DelayFrames : null;
        }
    }

    // The microphone above the drum or outside the kick; otherwise the first.
    private static int Reference(List<int> drum, IReadOnlyList<Place> places) =>
        drum.OrderBy(m => places[m].Standing switch
        {
            Standing.Top => 0,
            Standing.In => 0,
            Standing.Unknown => 1,
            Standing.Out => 2,
            _ => 3,
        }).ThenBy(m => m).First();

    private static List<(long From, int Frames)> Wanted(int m, int rateHz, List<(int Drum, int Reference, int Other, MicrophoneKind Kind, ChosenHits Hits)> pairs)
    {
        var wanted = new List<(long From, int Frames)>();
        foreach (var hits in pairs.Where(p => p.Reference == m).Select(p => p.Hits).Distinct())
        {
            wanted.AddRange(hits.Own.Select(f => Stretch(f, -RunUpMs, MarginMs, rateHz)));
            wanted.AddRange(hits.Others.Select(f => Stretch(f, -RunUpMs, MarginMs, rateHz)));
        }

        foreach (var pair in pairs.Where(p => p.Other == m))
        {
            var search = Search(pair.Kind);
            wanted.AddRange(pair.Hits.Own.Select(f => Stretch(f, search.EarliestMs - RunUpMs, search.LatestMs + MarginMs, rateHz)));
        }

        return [.. wanted.Order()];
    }

    private static (long From, int Frames) Stretch(long frame, double fromMs, double toMs, int rateHz) =>
        (frame + (long)(fromMs * rateHz / 1000), (int)((toMs - fromMs) * rateHz / 1000));

    private static AlignmentSearch Search(MicrophoneKind kind) => kind switch
    {
        MicrophoneKind.SameDrum => AtDrum,
        MicrophoneKind.Overhead => OverKit,
        MicrophoneKind.OtherDrum => AcrossKit,
        _ => InRoom,
    };
}

/// <summary>A pair of microphones and what was found of them.</summary>
/// <param name="Drum">The drum.</param>
/// <param name="Reference">Its own microphone.</param>
/// <param name="Other">The other one.</param>
/// <param name="Kind">Where that one stands.</param>
/// <param name="Found">Delay and polarity.</param>
internal sealed record HeardPair(string Drum, int Reference, int Other, MicrophoneKind Kind, PairEstimate Found);
