using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Comparing.Measuring;
using DrumPrint.Planning;
using DrumPrint.Prints;
using DrumPrint.Prints.Differences;
using DrumPrint.Prints.Ticketing;

namespace DrumPrint.Comparing.Targets;

/// <summary>Renders what differs between two chains, and compares it.</summary>
internal sealed class ChainComparison
{
    private readonly Chain _asWritten;
    private readonly Chain _a;
    private readonly Chain _b;
    private readonly (string A, string B) _names;
    private readonly ComparisonOptions _options;
    private readonly IProgress<PrintProgress>? _progress;
    private readonly CancellationToken _cancel;
    private readonly IReadOnlyList<PrintTarget> _targetsA;
    private readonly IReadOnlyList<PrintTarget> _targetsB;

    private ChainComparison(Chain a, Chain b, (string A, string B) names, ComparisonOptions options, IProgress<PrintProgress>? progress, CancellationToken cancel)
    {
        // A new name does not reach the sound, so A takes those of B.
        _asWritten = a;
        _a = Renames.In(a, Renames.Between(a, b, areWhole: true));
        _b = b;
        _names = names;
        _options = options;
        _progress = progress;
        _cancel = cancel;
        _targetsA = PrintSelection.Of(_a, []).All;
        _targetsB = PrintSelection.Of(b, []).All;
    }

    /// <summary>Two chains.</summary>
    public static ComparisonReport Compare(string pathA, string pathB, ComparisonOptions options, IProgress<PrintProgress>? progress, CancellationToken cancel) =>
        new ChainComparison(ChainReader.Read(pathA), ChainReader.Read(pathB), CompareTarget.Names(pathA, pathB), options, progress, cancel).Compare();

    /// <summary>One chain, whole and with a part left out.</summary>
    public static ComparisonReport Compare(string path, ComparisonOptions options, IProgress<PrintProgress>? progress, CancellationToken cancel)
    {
        var chain = ChainReader.Read(path);
        return new ChainComparison(chain, ChainWithout.Of(chain, options.Without!), ("whole", $"without {options.Without}"), options, progress, cancel).Compare();
    }

    private ComparisonReport Compare()
    {
        if (_a.Song.RateHz != _b.Song.RateHz)
        {
            throw new UsageException($"A is a session at {_a.Song.RateHz} Hz, B one at {_b.Song.RateHz} Hz. Both sides need one rate; converting one would be part of the difference.");
        }

        var front = Front();
        var like = Like(front)!;
        var differing = _targetsA.Where(t => t.Kind != PrintKind.Click && Like(t) is { } other && Differs(t, other)).ToList();
        var temporary = Directory.CreateTempSubdirectory("drumprint-compare-").FullName;
        try
        {
            return Render(front, like, differing, temporary);
        }
        finally
        {
            Directory.Delete(temporary, recursive: true);
        }
    }

    private ComparisonReport Render(PrintTarget front, PrintTarget like, List<PrintTarget> differing, string temporary)
    {
        var renderA = new ChainRender(_a, _names.A, Path.Combine(temporary, "a"), _options, _progress, _cancel);
        var renderB = new ChainRender(_b, _names.B, Path.Combine(temporary, "b"), _options, _progress, _cancel);
        var end = Math.Max(renderA.RawEnd, renderB.RawEnd);
        var tempo = _a.Song.Tempo ?? _b.Song.Tempo;
        var (from, to) = (_options.From(tempo), _options.To(tempo));
        var passage = from is null && to is null
            ? Passage.Busiest(renderA.Render([front.Number], 0, end)[front.Number], 0, end, tempo)
            : Passage.Asked(from, to, 0, end, _a.Song.RateHz, tempo);
        var reach = Alignment.Reach(passage.RateHz);
        var (first, last) = (Math.Max(0, passage.FromFrame - reach), passage.FromFrame + passage.Frames + reach);
        List<PrintTarget> wanted = [front, .. differing.Where(t => t != front)];
        var sidesA = renderA.Render([.. wanted.Select(t => t.Number)], first, last);
        var isSame = differing.Count == 0;
        var sidesB = isSame ? sidesA : renderB.Render([.. wanted.Select(t => Like(t)!.Number)], first, last);

        var compared = new List<Comparison>();
        foreach (var target in wanted)
        {
            _cancel.ThrowIfCancellationRequested();
            _progress?.Report(new PrintProgress($"Comparing {target.Number:00} {target.Name}", (double)compared.Count / wanted.Count));
            var comparison = PairMeasurement.Of(FormattableString.Invariant($"{target.Number:00} {target.Name}"), sidesA[target.Number], sidesB[Like(target)!.Number], passage, _options);
            compared.Add(target == front ? comparison : comparison with { A = comparison.A with { Sound = null }, B = comparison.B with { Sound = null } });
        }

        return new ComparisonReport(
            compared[0],
            [.. compared.Skip(1)],
            _options.Without is null ? Recipe(like) : [],
            Notes(differing, isSame, sidesA[front.Number], sidesB[like.Number]));
    }

    private List<string> Notes(List<PrintTarget> differing, bool isSame, SideFile a, SideFile b)
    {
        var notes = new List<string>();
        if (isSame)
        {
            notes.Add("Both chains make every print in the same way from the same recordings, so it was rendered once.");
        }
        else
        {
            notes.Add($"The chains make these prints in different ways: {string.Join(", ", differing.Select(t => FormattableString.Invariant($"{t.Number:00} {t.Name}")))}. The others were not rendered.");
        }

        notes.AddRange(_targetsA.Where(t => Like(t) is null).Select(t => FormattableString.Invariant($"{t.Number:00} {t.Name} is in A only.")));
        notes.AddRange(_targetsB.Where(t => !_targetsA.Any(o => IsLike(o, t))).Select(t => FormattableString.Invariant($"{t.Number:00} {t.Name} is in B only.")));
        if (a.Info.Channels != b.Info.Channels)
        {
            notes.Add($"A has {Words.Count(a.Info.Channels, "channel")}, B {b.Info.Channels}; a mono side is heard on both.");
        }

        return notes;
    }

    private PrintTarget Front()
    {
        var both = _targetsA.Where(t => Like(t) is not null).ToList();
        var names = string.Join(", ", both.Select(t => FormattableString.Invariant($"{t.Number:00} {t.Name}")));
        if (_options.Print is { } word)
        {
            return both.FirstOrDefault(t => PrintWord.Fits(word, t.Number, t.Name, t.Kind, PrintFileName.Of(t.Number, t.Name, _a.Song)))
                ?? throw new UsageException($"--print {word}: both sides have {(both.Count > 0 ? names : "no print in common")}.");
        }

        var (rough, withBus) = (both.FirstOrDefault(t => t.Kind == PrintKind.Rough), both.FirstOrDefault(t => t.Kind == PrintKind.RoughWithBus));
        if (rough is not null && withBus is not null && !Differs(rough, Like(rough)!) && Differs(withBus, Like(withBus)!))
        {
            return withBus;
        }

        return rough ?? withBus ?? (both.Count == 1 ? both[0] : throw new UsageException(both.Count == 0
            ? "The chains have no print in common."
            : $"The chains have no rough in common. Name a print with --print: {names}."));
    }

    // The same number, or the same kind of rough.
    private PrintTarget? Like(PrintTarget target) => _targetsB.FirstOrDefault(t => IsLike(target, t));

    // A print that stays itself under its number may have another name.
    private static bool IsLike(PrintTarget a, PrintTarget b) => a.Kind is PrintKind.Rough or PrintKind.RoughWithBus
        ? a.Kind == b.Kind
        : a.Number == b.Number && (string.Equals(a.Name, b.Name, StringComparison.OrdinalIgnoreCase) || a.Print?.Bus == b.Print?.Bus);

    private bool Differs(PrintTarget a, PrintTarget b)
    {
        var (partA, partB) = (ChainPart.Of(_a, a), ChainPart.Of(_b, b));
        return Sound(partA) != Sound(partB)
            || partA.Tracks.Select(t => t.File).Concat(partA.Impulses.Select(i => i.File)).Any(HasOtherSound);
    }

    // Without what does not reach the sound: title, code and version, names of prints and sections, word length and tails.
    private static string Sound(Chain part) => ChainWriter.Canonical(part with
    {
        Song = part.Song with { Title = "", Code = "", Version = 1, Tempo = null },
        Prints = [.. part.Prints.Select(p => p with { Name = "" })],
        Output = new OutputSettings { RoughWithBus = part.Output.RoughWithBus is { } withBus ? new RoughPrint(0, "", withBus.LevelDb) : null },
    }) + (part.Song.Tempo is { } tempo ? TempoWriter.Canonical(new TempoMap("", tempo.Stretches, [], tempo.LastBar)) : "");

    // What the program's diff would say of the print in front, of all that reaches the sound.
    private List<string> Recipe(PrintTarget like)
    {
        var (a, b) = (_asWritten, _b);
        var asHeard = b with
        {
            Song = b.Song with { Title = a.Song.Title, Code = a.Song.Code, Version = a.Song.Version },
            Output = a.Output with { Rough = b.Output.Rough, RoughWithBus = b.Output.RoughWithBus },
        };
        var print = FormattableString.Invariant($"{like.Number:00} {like.Name}");
        return [.. ChainChanges.Of(Made.Of("A", a), Made.Of("B", asHeard)).Where(c => c.Reaches.Contains(print)).Select(c => c.ToString())];
    }

    private bool HasOtherSound(string file)
    {
        var (a, b) = (Path.GetFullPath(Path.Combine(_a.Folder, file)), Path.GetFullPath(Path.Combine(_b.Folder, file)));
        return a != b && File.Exists(a) && File.Exists(b) && FileHash.AudioSha256(a) != FileHash.AudioSha256(b);
    }
}
