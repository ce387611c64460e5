using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Checking;
using DrumPrint.Checking.Rules;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Files;
using DrumPrint.Session;

namespace DrumPrint.Live;

/// <summary>Hits of the raw tracks, and which of them gates lose, by the rules of a check. Raw tracks are read once, and again when a file is another one.</summary>
/// <param name="reading">Which files the chain may name.</param>
internal sealed class SongHits(ReadPolicy reading)
{
    private List<CheckedTake> _takes = [];
    private string _mark = "";

    /// <summary>Reads the close microphones of a chain, on the calling thread.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="rest">Called again and again while it reads.</param>
    /// <param name="cancel">Stops it.</param>
    public void Read(Chain chain, Action rest, CancellationToken cancel)
    {
        List<CheckedTake> takes = [.. TakeList.OfChain(chain, reading).Where(t => t.IsClose)];
        var mark = string.Join('\n', takes.Select(Mark));
        if (mark != _mark)
        {
            _takes = Checker.Measure(takes, hashed: false, threads: 1, new Resting(rest), cancel);
            _mark = mark;
        }

        // The chain may have moved them in time.
        var tracks = chain.Tracks.ToDictionary(t => t.Name, StringComparer.Ordinal);
        _takes = [.. _takes.Select(t => t with { Track = tracks[t.Name] })];
    }

    /// <summary>What each gate lost.</summary>
    /// <param name="chain">The chain, with what its goals found.</param>
    /// <param name="gates">Gates that were watched over the song.</param>
    /// <param name="cancel">Stops it.</param>
    public IReadOnlyDictionary<StageWatch, GateLine> Lost(Chain chain, IReadOnlyList<StageWatch> gates, CancellationToken cancel)
    {
        var records = gates.Where(g => g.Bus.Length > 0).Select(g => (Watch: g, Record: g.Record(chain))).ToList();
        using var subject = new CheckSubject(chain, _takes, chain.Song.RateHz, cancel) { Gates = [.. records.Select(r => r.Record)] };
        var counted = GateHits.Gates(subject).ToDictionary(g => g.Gate, g => g.Take);
        return gates.ToDictionary(g => g, g =>
        {
            var record = records.FirstOrDefault(r => r.Watch == g).Record;
            var open = g.Open();
            if (record is null || !counted.TryGetValue(record, out var take))
            {
                return new GateLine(open, null, [], "no close microphone of a drum comes to this gate");
            }

            if (BusTree.IsSpread(chain, record.Bus.Name))
            {
                return new GateLine(open, null, [], "an impulse or a delay spreads hits out in this bus or before it");
            }

            if (record.Tracks.Any(t => _takes.Any(k => k.Name == t && k.Figures?.RateHz != chain.Song.RateHz)))
            {
                return new GateLine(open, null, [], "a track that comes to this gate has another rate than the song");
            }

            var own = GateHits.Own(subject, record, take);
            return new GateLine(open, own.Count, [.. GateHits.Lost(record, own).Select(at => new LostHit(at, g.PeakDb(at)))], null);
        });
    }

    // What tells that a take is another one, without reading it.
    private static string Mark(CheckedTake take)
    {
        var files = take.Track!.Files.Select(f => new FileInfo(Path.Combine(Path.GetDirectoryName(take.Path)!, Path.GetFileName(f))));
        return string.Create(CultureInfo.InvariantCulture, $"{take.Name}|{take.Recording}|{take.Track.Channel}|{take.Track.LatencyMs}|{string.Join('|', files.Select(f => f.Exists ? $"{f.Length} {f.LastWriteTimeUtc.Ticks}" : "-"))}");
    }

    private sealed class Resting(Action rest) : IProgress<PrintProgress>
    {
        public void Report(PrintProgress value) => rest();
    }
}
