using DrumPrint.Chains;
using DrumPrint.Files;

namespace DrumPrint.Live;

/// <summary>How loud each print is over the whole song and what each processor did to the gain, for a picture.</summary>
/// <param name="Columns">Peaks of each print by its number; the song from start to end.</param>
/// <param name="Lines">Processors that move the gain, of every bus that some print is made of and of the drum bus.</param>
public sealed record SongOutline(IReadOnlyDictionary<int, float[]> Columns, IReadOnlyList<StageLine> Lines)
{
    /// <summary>Renders the song once, on the calling thread.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="columns">Into how many parts the song is cut.</param>
    /// <param name="reading">Which files it may name.</param>
    /// <param name="cancel">Stops between blocks.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static SongOutline Of(Chain chain, int columns, ReadPolicy? reading = null, CancellationToken cancel = default) =>
        Of(chain, columns, 0, new SongHits(reading ?? ReadPolicy.Default), reading ?? ReadPolicy.Default, static _ => { }, cancel);

    /// <summary>The same beside what plays.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="columns">Into how many parts the song is cut.</param>
    /// <param name="trimDb">Common trim of the prints.</param>
    /// <param name="hits">What is known of the raw tracks.</param>
    /// <param name="reading">Which files it may name.</param>
    /// <param name="rest">Called after every block with the part of the song that is done: time to give way.</param>
    /// <param name="cancel">Stops between blocks.</param>
    internal static SongOutline Of(Chain chain, int columns, double trimDb, SongHits hits, ReadPolicy reading, Action<double> rest, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(chain);
        var session = LiveSession.Of(chain, reading, null);
        using var recordings = session.Recordings;
        var blockFrames = chain.Song.RateHz / LiveGraph.BlocksPerSecond;
        var frames = new LiveLength(session).RawEnd;
        var blocks = Math.Max(1, frames / blockFrames);
        var graph = LiveGraph.Build(session, new HeardSettings(new Strips(), chain.DrumBus.Count > 0, trimDb) { KeepsPast = false }, null, 0, new BlockPool(blockFrames));
        List<StageWatch> watches = [.. graph.Stages.Where(s => s.Traces.Count > 0).Select(s => new StageWatch(s, chain.Song.RateHz, frames))];
        List<StageWatch> gates = [.. watches.Where(w => w.IsGate)];
        if (gates.Count > 0)
        {
            hits.Read(session.Chain, () => rest(0), cancel);
        }

        var outline = chain.Prints.ToDictionary(p => p.Number, _ => new float[columns]);
        graph.Made = block =>
        {
            gates.ForEach(g => g.See(block));
            var there = block - graph.PeaksLate;
            for (var p = 0; p < chain.Prints.Count && there >= 0 && there < blocks; p++)
            {
                ref var peak = ref outline[chain.Prints[p].Number][(int)(there * columns / blocks)];
                peak = Math.Max(peak, graph.Peaks[p]);
            }
        };
        for (long block = 0; block < blocks; block++)
        {
            cancel.ThrowIfCancellationRequested();
            graph.Advance(block);
            rest((block + 1.0) / blocks);
        }

        var lost = hits.Lost(session.Chain, gates, cancel);
        return new SongOutline(outline, [.. Named(watches.SelectMany(w => w.Lines(columns).Select(l => l with { Gate = lost.GetValueOrDefault(w) })))]);
    }

    // Two of one kind in a bus are told apart.
    private static IEnumerable<StageLine> Named(IEnumerable<StageLine> lines)
    {
        foreach (var alike in lines.GroupBy(l => (l.Bus, l.Name)))
        {
            var number = 0;
            foreach (var line in alike)
            {
                number++;
                yield return alike.Count() == 1 ? line : line with { Name = FormattableString.Invariant($"{line.Name} {number}") };
            }
        }
    }
}
