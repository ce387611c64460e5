using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp.Filters;
using DrumPrint.Listening;
using DrumPrint.Session;

namespace DrumPrint.Measuring;

/// <summary>Measures hits, ghosts and spill, so that a threshold is read instead of guessed.</summary>
public static class HitMeter
{
    private const int KeyOrder = 2;
    private const double LowestLevelDb = -120;
    private const int MostChannels = 64;

    /// <summary>Measures recordings of one take: each is held against the others, which say what is spill.</summary>
    /// <param name="paths">Files that begin together; of a stereo file the left side is measured, of a file of more channels each.</param>
    /// <param name="keyHighPassHz">Corner of a high-pass of 12 dB per octave in the gate's key; null for none.</param>
    /// <param name="keyLowPassHz">Corner of a low-pass; null for none.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancel">Stops between blocks.</param>
    /// <exception cref="AudioFileException">A file cannot be read.</exception>
    /// <exception cref="UsageException">Files are at different rates.</exception>
    public static IReadOnlyList<HitReport> Measure(IReadOnlyList<string> paths, double? keyHighPassHz, double? keyLowPassHz, Action<string, double> progress, CancellationToken cancel)
    {
        ArgumentNullException.ThrowIfNull(paths);
        List<(MicrophoneName Name, Microphone Microphone)> opened = [.. paths.SelectMany(Open)];
        List<Microphone> microphones = [.. opened.Select(o => o.Microphone)];
        var rate = microphones[0].Input.SessionRateHz;
        if (microphones.Find(m => m.Input.Info.SampleRate != rate) is { } other)
        {
            throw new UsageException(FormattableString.Invariant($"{other.Name} is at {other.Input.Info.SampleRate} Hz and {microphones[0].Name} at {rate} Hz; only files of one rate are held against each other."));
        }

        foreach (var hz in new[] { keyHighPassHz, keyLowPassHz }.OfType<double>().Where(hz => hz < 10 || hz > 0.45 * rate))
        {
            throw new UsageException(FormattableString.Invariant($"A key filter at {hz} Hz is out of range; 10 to {0.45 * rate:0} Hz can be used."));
        }

        BiquadCoefficients[] key =
        [
            .. keyHighPassHz is { } high ? BiquadDesign.HighPass(high, KeyOrder, rate) : [],
            .. keyLowPassHz is { } low ? BiquadDesign.LowPass(low, KeyOrder, rate) : [],
        ];
        var take = Take.Hear(microphones, rate, progress, cancel);
        var places = Kit.Sort(take, [.. opened.Select(o => o.Name)], Traits.Of(take));
        return [.. microphones.Select((microphone, m) => Report(microphone.Name, take, Drums(places, m), m, key, cancel))];
    }

    // Whatever it hears, the file that is measured is a close microphone of some drum.
    private static List<List<int>> Drums(Place[] places, int microphone)
    {
        List<List<int>> drums = [.. Enumerable.Range(0, places.Length).Where(m => places[m].IsClose && places[m].IsSure).GroupBy(m => places[m].Drum).Select(g => g.ToList())];
        if (!drums.Exists(d => d.Contains(microphone)))
        {
            drums.Add([microphone]);
        }

        return drums;
    }

    private static HitReport Report(string path, Take take, List<List<int>> drums, int microphone, BiquadCoefficients[] key, CancellationToken cancel)
    {
        var levels = HitLevels.Of(take, drums, drums.FindIndex(d => d.Contains(microphone)), microphone, key, (_, _) => { }, cancel);
        LevelSpread Spread(HitSort sort) => new(
            levels.Count(sort),
            levels.Quantile(sort, 0.1),
            levels.Quantile(sort, 0.5),
            levels.Quantile(sort, 0.95),
            [.. levels.Hits.Where(h => h.Sort == sort && h.PeakDb > LowestLevelDb).Select(h => h.PeakDb)]);
        var note = drums.Count == 1 ? "Measured alone, soft hits may be ghosts or spill; name the other microphones of the take too, and they tell."
            : levels.OpenDb() is null ? "Its hits and its spill overlap, or there are no hits: no threshold parts them. A key filter may."
            : null;
        return new HitReport(path, Spread(HitSort.Hit), Spread(HitSort.Ghost), Spread(HitSort.Spill), levels.OpenDb(), note);
    }

    // Each channel of a file of many is a microphone, by the name the file gives it.
    private static IEnumerable<(MicrophoneName Name, Microphone Microphone)> Open(string path)
    {
        using var reader = AudioReader.Open(path, AudioHashes.None);
        var info = reader.Info;
        var input = new TrackInput(new Track(path, path, 0, false, PathDelay.None, false, 1), path, info, info.SampleRate);
        if (info.Channels <= 2)
        {
            return [(MicrophoneName.Of(path), new Microphone(path, input, 0))];
        }

        return info.Channels > MostChannels
            ? throw new AudioFileException(path, FormattableString.Invariant($"has {info.Channels} channels; hits are measured in up to {MostChannels}."))
            : [.. ChannelNames.Of(reader).Select((name, c) => (
                MicrophoneName.Of(name.Replace('/', ' ').Replace('.', ' ')),
                new Microphone(FormattableString.Invariant($"{path} channel {c + 1}{(name.Length > 0 ? $" ({name})" : "")}"), input, c)))];
    }
}
