using DrumPrint.Chains;
using DrumPrint.Files;

namespace DrumPrint.Live;

/// <summary>How loud each print is over the whole song, for a picture.</summary>
/// <param name="Columns">Peaks of each print by its number; the song from start to end.</param>
public sealed record SongOutline(IReadOnlyDictionary<int, float[]> Columns)
{
    /// <summary>Renders the song once, on the calling thread.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="columns">Into how many parts the song is cut.</param>
    /// <param name="reading">Which files it may name.</param>
    /// <param name="cancel">Stops between blocks.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static SongOutline Of(Chain chain, int columns, ReadPolicy? reading = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(chain);
        var session = LiveSession.Of(chain, reading ?? ReadPolicy.Default, null);
        var blockFrames = chain.Song.RateHz / LiveGraph.BlocksPerSecond;
        var blocks = Math.Max(1, new LiveLength(session).RawEnd / blockFrames);
        var graph = LiveGraph.Build(session, new HeardSettings(new Strips(), false, 0) { KeepsPast = false }, null, 0, new BlockPool(blockFrames));
        var outline = chain.Prints.ToDictionary(p => p.Number, _ => new float[columns]);
        for (long block = 0; block < blocks; block++)
        {
            cancel.ThrowIfCancellationRequested();
            graph.Advance(block);
            var column = (int)(block * columns / blocks);
            for (var p = 0; p < chain.Prints.Count; p++)
            {
                ref var peak = ref outline[chain.Prints[p].Number][column];
                peak = Math.Max(peak, graph.Peaks[p]);
            }
        }

        session.Recordings.Dispose();
        return new SongOutline(outline);
    }
}
