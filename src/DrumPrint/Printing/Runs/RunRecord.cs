using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Writing;
using DrumPrint.Printing.Reports;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Printing.Runs;

/// <summary>Makes the ticket of a run, and the part of it for each print.</summary>
/// <param name="chain">The chain.</param>
/// <param name="run">What is made.</param>
/// <param name="inputs">Its files.</param>
/// <param name="encoding">Word length.</param>
internal sealed class RunRecord(Chain chain, PrintRun run, SessionInputs inputs, SampleEncoding encoding)
{
    /// <summary>The chunk of a file before the run, of the same length but for a few digits.</summary>
    /// <remarks>Its length decides where samples begin, so nothing in it may depend on how the run is made.</remarks>
    public WaveChunk Blank(PrintTarget target) => run.IsOfWholeSong ? Part(target, 0, 0, null).ToChunk() : ExcerptSeal.ToChunk(null);

    /// <summary>The version that a file names as its maker: this one, unless it is made again as it was.</summary>
    /// <param name="target">The file.</param>
    /// <param name="audioSha256">Hash of its samples; null before they are known.</param>
    public string Engine(PrintTarget target, string? audioSha256) => Carried(target, audioSha256)?.Engine ?? EngineVersion.Text;

    /// <summary>What a print carries.</summary>
    /// <param name="target">The print.</param>
    /// <param name="frames">Length of every print.</param>
    /// <param name="trimDb">Common trim of all prints.</param>
    /// <param name="trackHashes">Hash of the samples of each raw track, by name; null before they are known.</param>
    /// <param name="audioSha256">Hash of its own samples; null before they are known.</param>
    public PrintPart Part(PrintTarget target, long frames, double trimDb, IReadOnlyDictionary<string, string>? trackHashes, string? audioSha256 = null)
    {
        var part = ChainPart.Of(chain, target);
        var impulses = part.Impulses.Select(i => i.Name).ToHashSet(StringComparer.Ordinal);
        var carried = Carried(target, audioSha256);
        return new PrintPart
        {
            Form = carried?.Form ?? PartKeys.Format,
            AudioSha256 = audioSha256,
            Engine = carried?.Engine ?? EngineVersion.Text,
            Number = target.Number,
            Chain = part,
            ChainSha256 = CanonicalHash.Of(part),
            TempoSha256 = CanonicalHash.Of(part.Song.Tempo),
            Encoding = encoding,
            Frames = frames,
            TrimDb = trimDb,
            Tracks = [.. part.Tracks.SelectMany(t => Track(t, trackHashes, null))],
            Impulses = [.. inputs.ImpulseFiles.Where(i => impulses.Contains(i.File.Name)).Select(Impulse)],
        };
    }

    /// <summary>Hash of each whole file that a run read, by path.</summary>
    /// <param name="trackHashes">Hash of the samples of each raw track that is heard, by name.</param>
    /// <param name="known">Hash of the whole file of some tracks, by name.</param>
    /// <param name="threads">Files hashed at a time.</param>
    /// <param name="cancel">Stops it.</param>
    public IReadOnlyDictionary<string, string> FileHashes(IReadOnlyDictionary<string, string> trackHashes, IReadOnlyDictionary<string, string> known, int threads, CancellationToken cancel)
    {
        var hashes = known.GroupBy(k => inputs.Tracks[k.Key].Path, k => k.Value, StringComparer.Ordinal).ToDictionary(k => k.Key, k => k.First(), StringComparer.Ordinal);
        var paths = Heard(trackHashes).SelectMany(t => inputs.Tracks[t.Name].Paths).Concat(inputs.ImpulseFiles.Select(i => i.Path)).Where(p => !hashes.ContainsKey(p));
        foreach (var (path, hash) in ManyFiles.Each(paths, threads, p => FileHash.Sha256(p, cancel), cancel))
        {
            hashes.Add(path, hash);
        }

        return hashes;
    }

    /// <summary>The ticket of a whole run.</summary>
    /// <param name="account">What was printed.</param>
    /// <param name="trackHashes">Hash of the samples of each raw track that is heard, by name.</param>
    /// <param name="hashes">Hash of each whole file, by path.</param>
    public Ticket Ticket(RunAccount account, IReadOnlyDictionary<string, string> trackHashes, IReadOnlyDictionary<string, string> hashes)
    {
        var tracks = Heard(trackHashes);
        return new Ticket
        {
            Engine = EngineVersion.Text,
            Chain = chain,
            ChainSha256 = CanonicalHash.Of(chain),
            TempoSha256 = CanonicalHash.Of(chain.Song.Tempo),
            Encoding = encoding,
            Frames = account.Frames,
            TrimDb = account.TrimDb,
            NullPeakDbfs = account.NullPeakDbfs,
            Tracks = [.. tracks.SelectMany(t => Track(t, trackHashes, hashes))],
            Impulses = [.. inputs.ImpulseFiles.Select(i => Impulse(i) with { FileSha256 = hashes[i.Path] })],
            Prints = [.. account.Prints.Select(Print)],
            Notes = account.Notes,
            Findings = account.Findings,
        };
    }

    // Other samples make another print, of this version.
    private CarriedRecord? Carried(PrintTarget target, string? audioSha256) =>
        run.Carried(target) is { } carried && (audioSha256 is null || carried.AudioSha256 is null || carried.AudioSha256 == audioSha256) ? carried : null;

    private List<Track> Heard(IReadOnlyDictionary<string, string> trackHashes) => [.. chain.Tracks.Where(t => trackHashes.ContainsKey(t.Name))];

    // One for each file of it.
    private IEnumerable<RecordedInput> Track(Track track, IReadOnlyDictionary<string, string>? hashes, IReadOnlyDictionary<string, string>? files)
    {
        var input = inputs.Tracks[track.Name];
        IReadOnlyList<(string Path, AudioFileInfo Info, long? Start)> places = input.Splice is { } splice ? [.. splice.Files.Select(f => (f.Path, f.Info, (long?)f.StartFrame))] : [(input.Path, input.Info, null)];
        var each = hashes is null ? null : input.Splice is null ? [hashes[track.Name]] : PieceHashes.Each(hashes[track.Name]);
        return places.Select((p, i) => new RecordedInput(track.Name, track.Files[i], each?[i] ?? FileSeal.Blank, files?[p.Path], p.Info.Frames, p.Info.SampleRate, p.Info.Channels, p.Info.Encoding) { StartFrame = p.Start });
    }

    private static RecordedInput Impulse(ImpulseInput input) => new(
        input.File.Name, input.File.File, input.AudioSha256, null, input.Info.Frames, input.Info.SampleRate, input.Info.Channels, input.Info.Encoding);

    /// <summary>A print as a ticket takes it down.</summary>
    public static RecordedPrint Print(PrintedFile print) => new(print.Number, print.Name, print.Kind, print.FileName, print.Channels, print.AudioSha256, print.FileSha256)
    {
        PeakDbfs = print.PeakDbfs,
        TruePeakDbtp = print.TruePeakDbtp,
        IntegratedLufs = print.IntegratedLufs,
        RangeLu = print.RangeLu,
        MaxMomentaryLufs = print.MaxMomentaryLufs,
        MaxShortTermLufs = print.MaxShortTermLufs,
        GainReductions = print.GainReductions,
        LatencyFrames = print.LatencyFrames,
        TailS = print.TailS,
    };
}
