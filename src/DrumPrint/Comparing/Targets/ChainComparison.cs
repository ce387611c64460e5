using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Comparing.Measuring;
using DrumPrint.Comparing.Pairs;
using DrumPrint.Diff;
using DrumPrint.Language;
using DrumPrint.Session;

namespace DrumPrint.Comparing.Targets;

/// <summary>Renders what differs between two chains, and compares it.</summary>
internal sealed class ChainComparison
{
    private readonly (Chain A, Chain B) _asWritten;
    private readonly Chain _a;
    private readonly Chain _b;
    private readonly (string A, string B) _names;
    private readonly ComparisonOptions _options;
    private readonly IProgress<PrintProgress>? _progress;
    private readonly CancellationToken _cancel;
    private readonly ChainPairs _pairs;

    private ChainComparison(Chain a, Chain b, (string A, string B) names, ComparisonOptions options, IProgress<PrintProgress>? progress, CancellationToken cancel)
    {
        // A new name does not reach the sound, so A takes those of B.
        var renamed = Renames.In(a, Renames.Between(a, b, areWhole: true));
        _asWritten = (a, b);
        _a = OpenDrumBus.In(renamed, b);
        _b = OpenDrumBus.In(b, renamed);
        _names = names;
        _options = options;
        _progress = progress;
        _cancel = cancel;
        _pairs = new ChainPairs(_a, _b, options.Reading);
    }

    /// <summary>Two chains.</summary>
    public static ComparisonReport Compare(string pathA, string pathB, ComparisonOptions options, IProgress<PrintProgress>? progress, CancellationToken cancel) =>
        new ChainComparison(ChainReader.Read(pathA, reading: options.Reading), ChainReader.Read(pathB, reading: options.Reading), CompareTarget.Names(pathA, pathB), options, progress, cancel).Compare();

    /// <summary>One chain, whole and with a part left out.</summary>
    public static ComparisonReport Compare(string path, ComparisonOptions options, IProgress<PrintProgress>? progress, CancellationToken cancel)
    {
        var chain = ChainReader.Read(path, reading: options.Reading);
        return new ChainComparison(chain, ChainWithout.Of(chain, options.Without!), ("whole", $"without {options.Without}"), options, progress, cancel).Compare();
    }

    private ComparisonReport Compare()
    {
        if (_a.Song.RateHz != _b.Song.RateHz)
        {
            throw new UsageException($"A is a session at {_a.Song.RateHz} Hz, B one at {_b.Song.RateHz} Hz. Both sides need one rate; converting one would be part of the difference.");
        }

        var front = FrontPrint.Of(_pairs, _options, _a.Song);
        var temporary = _options.Steps.Do("make a temporary folder", () => Directory.CreateTempSubdirectory("drumprint-compare-").FullName);
        try
        {
            return Render(front, temporary);
        }
        finally
        {
            _options.Steps.TryDeleteFolder(temporary);
        }
    }

    private ComparisonReport Render(PrintTarget front, string temporary)
    {
        var renderA = new ChainRender(_a, _names.A, Path.Combine(temporary, "a"), _options, _progress, _cancel);
        var renderB = new ChainRender(_b, _names.B, Path.Combine(temporary, "b"), _options, _progress, _cancel);
        var end = Math.Max(renderA.RawEnd, renderB.RawEnd);
        var tempo = _a.Song.Tempo ?? _b.Song.Tempo;
        var (from, to) = (_options.From(tempo), _options.To(tempo));
        var opening = Opening(front);
        var wholeA = (from is null && to is null) || _options.ForPage ? renderA.Render([front.Number, .. opening == front ? [] : new[] { opening.Number }], 0, end) : null;
        var passage = from is null && to is null
            ? Passage.Busiest(wholeA![front.Number], 0, end, tempo)
            : Passage.Asked(from, to, 0, end, _a.Song.RateHz, tempo);
        var reach = Alignment.Reach(passage.RateHz);
        var (first, last) = (Math.Max(0, passage.FromFrame - reach), passage.FromFrame + passage.Frames + reach);
        List<PrintTarget> wanted = [front, .. _pairs.Differing.Where(t => t != front)];
        var sidesA = renderA.Render([.. wanted.Select(t => t.Number)], first, last);
        var isSame = _pairs.Differing.Count == 0;
        var overview = _options.ForPage
            ? SongOverview.Of(ChainPairs.Title(opening), wholeA![opening.Number], isSame ? wholeA[opening.Number] : renderB.Render([_pairs.Like(opening)!.Number], 0, end)[_pairs.Like(opening)!.Number], tempo)
            : null;
        var sidesB = isSame ? sidesA : renderB.Render([.. wanted.Select(t => _pairs.Like(t)!.Number)], first, last);

        var compared = new List<Comparison>();
        foreach (var target in wanted)
        {
            _cancel.ThrowIfCancellationRequested();
            _progress?.Report(new PrintProgress($"Comparing {target.Number:00} {target.Name}", (double)compared.Count / wanted.Count));
            var comparison = PairMeasurement.Of(ChainPairs.Title(target), sidesA[target.Number], sidesB[_pairs.Like(target)!.Number], passage, _options);
            compared.Add(target == front || _options.ForPage ? comparison : comparison with { A = comparison.A with { Sound = null }, B = comparison.B with { Sound = null } });
        }

        return new ComparisonReport(
            compared[0],
            [.. compared.Skip(1)],
            _options.Without is null ? Recipe(front) : [],
            Notes(sidesA[front.Number], sidesB[_pairs.Like(front)!.Number]))
        {
            Song = SongWords(),
            Changed = _options.Without is { } part ? [$"{part} left out in B"] : Recipe(opening),
            Opening = compared[wanted.IndexOf(opening)],
            Overview = overview,
        };
    }

    private string SongWords()
    {
        var (a, b) = (_asWritten.A.Song, _asWritten.B.Song);
        var version = a.Version == b.Version ? FormattableString.Invariant($"version {a.Version}") : FormattableString.Invariant($"version {a.Version} → {b.Version}");
        return $"{(a.Title == b.Title ? a.Title : $"{a.Title} → {b.Title}")}, {version}";
    }

    // Among the prints that differ, the one made of least: the change is the largest part of it.
    private PrintTarget Opening(PrintTarget front) => !_options.ForPage || _options.Print is not null ? front : _pairs.Differing
        .Where(t => t.Kind is PrintKind.Playing or PrintKind.Optional)
        .OrderBy(t => t.Kind == PrintKind.Optional)
        .ThenBy(t => ChainPart.Of(_b, _pairs.Like(t)!) is var part ? part.Tracks.Count + part.Buses.Count : 0)
        .ThenBy(t => t.Number)
        .FirstOrDefault() ?? front;

    private List<string> Notes(SideFile a, SideFile b)
    {
        var notes = new List<string>();
        if (_pairs.Differing.Count == 0)
        {
            var which = _pairs.OnlyInA.Count + _pairs.OnlyInB.Count == 0 ? "every print" : "every print that both have";
            notes.Add($"Both chains make {which} in the same way from the same recordings, so it was rendered once.");
        }
        else
        {
            notes.Add($"Changed: {ChainPairs.Titles(_pairs.Differing)}. The rest are the same.");
        }

        foreach (var (side, written, other) in new[] { ("A", _asWritten.A, _asWritten.B), ("B", _asWritten.B, _asWritten.A) })
        {
            if (OpenDrumBus.IsNeeded(written, other) && _pairs.Both.FirstOrDefault(t => t.Kind == PrintKind.RoughWithBus) is { } withBus)
            {
                var rough = withBus.LevelDb == 0 ? _pairs.Both.FirstOrDefault(t => t.Kind == PrintKind.Rough) : null;
                var known = rough is null ? "" : $", which is {ChainPairs.Title(rough)}";
                notes.Add($"{side} has no drum bus: its side of {ChainPairs.Title(withBus)} is the sum that would go into one{known}.");
            }
        }

        notes.AddRange(_pairs.OnlyInA.Select(t => $"{ChainPairs.Title(t)} is in A only."));
        notes.AddRange(_pairs.OnlyInB.Select(t => $"{ChainPairs.Title(t)} is in B only."));
        if (a.Info.Channels != b.Info.Channels)
        {
            notes.Add($"A has {Words.Count(a.Info.Channels, "channel")}, B {b.Info.Channels}; a mono side is heard on both.");
        }

        return notes;
    }

    // What the program's diff would say of the print in front, of all that reaches the sound.
    private List<string> Recipe(PrintTarget front)
    {
        var (a, b) = _asWritten;
        var asHeard = b with
        {
            Song = b.Song with { Title = a.Song.Title, Code = a.Song.Code, Version = a.Song.Version },
            Output = a.Output with { Rough = b.Output.Rough, RoughWithBus = b.Output.RoughWithBus },
        };
        var print = ChainPairs.Title(_pairs.Like(front)!);
        return [.. ChainChanges.Of(Made.Of("A", a), Made.Of("B", asHeard)).Where(c => c.Reaches.Contains(print)).Select(c => c.ToString())];
    }
}
