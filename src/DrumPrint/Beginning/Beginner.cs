using System.Globalization;
using DrumPrint.Aligning;
using DrumPrint.Chains.Reading;
using DrumPrint.Dsp.Filters;
using DrumPrint.Files;
using DrumPrint.Language;
using DrumPrint.Listening;

namespace DrumPrint.Beginning;

/// <summary>Begins a session: listens to raw files and writes a chain that prints at once.</summary>
public static class Beginner
{
    private const double KeyLowHz = 150;
    private const double KeyHighHz = 1200;

    /// <summary>Writes the chain.</summary>
    /// <param name="folder">Folder of the raw files, or around theirs.</param>
    /// <param name="progress">Told how far it is.</param>
    /// <param name="cancel">Stops between blocks; nothing is written then.</param>
    /// <param name="reading">Where links in the folder may lead; null for nowhere else.</param>
    /// <param name="called">What files are, where their names do not say: each as <c>FILE=NAME</c>, such as <c>0003.wav=snare top</c>.</param>
    /// <exception cref="UsageException">The folder holds a chain already, or no sound file, or nothing in it could be told.</exception>
    public static BegunSession Begin(string folder, Action<string, double> progress, CancellationToken cancel, ReadPolicy? reading = null, IReadOnlyList<string>? called = null)
    {
        ArgumentNullException.ThrowIfNull(folder);
        var title = Path.GetFileName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder)));
        title = title.Length == 0 ? "Song" : title;
        var path = Path.Combine(folder, Naming.Code(title) + ".chain.json");
        if (Directory.Exists(folder) && Directory.GetFiles(folder, "*.chain.json").FirstOrDefault() is { } there)
        {
            throw new UsageException($"{there} is there already, and begin replaces nothing. Print it, or move it away and begin again.");
        }

        var raw = RawFolder.Open(folder, reading ?? ReadPolicy.Default, new CalledFiles(called ?? []));
        List<(RawFile File, Microphone Microphone)> heard = [.. raw.Files.SelectMany(f => f.Microphones.Select(m => (f, m)))];
        var take = Take.Hear([.. heard.Select(h => h.Microphone)], raw.RateHz, progress, cancel);
        var traits = Traits.Of(take);
        var places = Kit.Sort(take, [.. heard.Select(h => Sided(h.File, h.Microphone))], traits);
        var byFile = heard.Zip(places).GroupBy(h => h.First.File).Select(g => new Guess(g.Key, [.. g.Select(h => h.Second)])).ToList();
        List<Guess> told = [.. Naming.Named([.. byFile.Where(g => g.Places.All(p => p.IsSure && p.Role is not (Role.Unknown or Role.Other)))])];
        if (told.Count == 0)
        {
            throw new UsageException($"{folder}: neither names nor sound tell what any of the {Words.Count(byFile.Count, "file")} is: {Show.Some([.. byFile.Select(g => g.File.Label)])}. Say what some are, such as --called \"{byFile[0].File.Label}=kick in\", or name them as people name microphones (kick in, snare top, oh l).");
        }

        Guess At(int m) => told.Find(g => g.File == heard[m].File)!;
        var sure = places.Select((p, m) => At(m) is null ? p with { IsSure = false } : p).ToArray();
        var pairs = PairListener.Listen(take, sure, m => sure[m].Role == Role.Overhead, progress, cancel);
        var guesses = Guesses.Of(told, At, pairs);
        var thresholds = Read(take, sure, progress, cancel);
        var text = new Draft(title, raw, guesses, thresholds).Write();
        ChainReader.Parse(text, path);
        StagedFile.Write(path, text, replaces: false);
        List<LeftOut> leftOut =
        [
            .. raw.LeftOut,
            .. byFile.Where(g => !told.Exists(t => t.File == g.File)).Select(g => new LeftOut(g.File.Label, g.Places.FirstOrDefault(p => !p.IsSure)?.Why ?? "is not of the kit by its name")),
        ];
        return new BegunSession(
            path,
            [.. guesses.Select(g => new BegunTrack(g.Track, g.File.Label, g.Place.Role.ToString(), g.Place.Drum, g.IsInverted, g.DelayMs, string.Join("; ", new[] { g.Place.Why, g.Evidence }.Where(t => t.Length > 0))))],
            leftOut,
            raw.Notes,
            [.. heard.Select((h, m) => Evidence(h.Microphone.Name, traits[m], places[m]))]);
    }

    private static MicrophoneName Sided(RawFile file, Microphone microphone) =>
        file.Channel is not null || file.Input.Info.Channels == 1 ? file.Name : file.Name with { Side = microphone.Channel == 0 ? Side.Left : Side.Right };

    private static string Evidence(string name, Traits t, Place place) => string.Create(
        CultureInfo.InvariantCulture,
        $"{name}: {(place.IsSure ? place.Role.ToString() : "unsure")} ({place.Why}). Loud hits {t.TypicalDb:0.0} dB, {t.LoudHits} of them; hears {100 * t.HitsHeard:0} % of all hits, {t.LateMs:0} ms after the first; middle of power {t.BrightHz:0} Hz, {t.LowDb:0} dB below 120 Hz; {t.RingDb:0} dB down after 80 ms.");

    private static Thresholds Read(Take take, Place[] places, Action<string, double> progress, CancellationToken cancel)
    {
        List<List<int>> drums = [.. Enumerable.Range(0, places.Length).Where(m => places[m].IsClose && places[m].IsSure).GroupBy(m => places[m].Drum).Select(g => g.ToList())];
        HitLevels? Levels(Role role, string? drum, BiquadCoefficients[] key)
        {
            var d = drums.FindIndex(g => places[g[0]].Role == role && (drum is null || places[g[0]].Drum == drum));
            return d < 0 ? null : HitLevels.Of(take, drums, d, drums[d].Find(m => places[m].Standing is Standing.Top or Standing.Unknown) is var top && drums[d].Contains(top) ? top : drums[d][0], key, progress, cancel);
        }

        var snare = Levels(Role.Snare, null, [.. BiquadDesign.HighPass(KeyLowHz, 2, take.RateHz), .. BiquadDesign.LowPass(KeyHighHz, 2, take.RateHz)]);
        var toms = drums.Where(g => places[g[0]].Role is Role.RackTom or Role.FloorTom).Select(g => Levels(places[g[0]].Role, places[g[0]].Drum, [])).OfType<HitLevels>().ToList();
        var tomsOpen = toms.Select(t => t.OpenDb()).OfType<double>().Select(db => db - 2).ToList();
        double Typical(Func<Place, bool> isIt) => places.Select((p, m) => isIt(p) ? take.Kit.TypicalDb[m] : double.NegativeInfinity).Where(double.IsFinite).DefaultIfEmpty(-20).Max();
        return new Thresholds(
            snare?.OpenDb(),
            Why(snare),
            tomsOpen.Count == 0 ? null : tomsOpen.Min(),
            toms.Count == 0 ? "" : Why(toms[0]),
            Math.Round(Typical(p => p.Role == Role.Room)),
            Math.Round(Typical(p => p.Role is Role.Kick or Role.Snare)));
    }

    private static string Why(HitLevels? levels) => levels is null ? "" : string.Create(
        CultureInfo.InvariantCulture,
        $"{levels.Count(HitSort.Hit)} hits from {levels.Quantile(HitSort.Hit, 0.1):0} dB, {levels.Count(HitSort.Ghost)} ghosts{(levels.Quantile(HitSort.Ghost, 0.5) is { } ghost ? FormattableString.Invariant($" about {ghost:0} dB") : "")}, spill up to {levels.Quantile(HitSort.Spill, 0.95):0} dB");
}
