using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Writing;
using DrumPrint.Files;
using DrumPrint.Session;

namespace DrumPrint.Comparing.Targets;

/// <summary>The prints of two chains, each with its like, and which of them are made in another way.</summary>
internal sealed class ChainPairs
{
    private readonly Chain _a;
    private readonly Chain _b;
    private readonly SessionReach _reachA;
    private readonly SessionReach _reachB;
    private readonly IReadOnlyList<PrintTarget> _targetsB;

    public ChainPairs(Chain a, Chain b, ReadPolicy reading)
    {
        (_reachA, _reachB) = (new SessionReach(reading, a.Folder), new SessionReach(reading, b.Folder));
        _a = a;
        _b = b;
        var all = PrintSelection.Of(a, []).All;
        _targetsB = PrintSelection.Of(b, []).All;
        Both = [.. all.Where(t => Like(t) is not null)];
        OnlyInA = [.. all.Where(t => Like(t) is null)];
        OnlyInB = [.. _targetsB.Where(t => !all.Any(o => IsLike(o, t)))];
        Differing = [.. Both.Where(t => t.Kind != PrintKind.Click && Differs(t, Like(t)!))];
    }

    /// <summary>A's prints that B has too.</summary>
    public IReadOnlyList<PrintTarget> Both { get; }

    public IReadOnlyList<PrintTarget> OnlyInA { get; }

    public IReadOnlyList<PrintTarget> OnlyInB { get; }

    /// <summary>A's prints that B makes in another way; never the click.</summary>
    public IReadOnlyList<PrintTarget> Differing { get; }

    /// <summary>B's print of the same number, or the same kind of rough.</summary>
    public PrintTarget? Like(PrintTarget target) => _targetsB.FirstOrDefault(t => IsLike(target, t));

    /// <summary>Number and name, as people read them.</summary>
    public static string Title(PrintTarget target) => FormattableString.Invariant($"{target.Number:00} {target.Name}");

    public static string Titles(IEnumerable<PrintTarget> targets) => string.Join(", ", targets.Select(Title));

    // A print that stays itself under its number may have another name.
    private static bool IsLike(PrintTarget a, PrintTarget b) => a.Kind is PrintKind.Rough or PrintKind.RoughWithBus
        ? a.Kind == b.Kind
        : a.Number == b.Number && (string.Equals(a.Name, b.Name, StringComparison.OrdinalIgnoreCase) || a.Print?.Bus == b.Print?.Bus);

    private bool Differs(PrintTarget a, PrintTarget b)
    {
        var (partA, partB) = (ChainPart.Of(_a, a), ChainPart.Of(_b, b));
        return Sound(partA) != Sound(partB)
            || partA.Tracks.SelectMany(t => t.Files).Concat(partA.Impulses.Select(i => i.File)).Any(HasOtherSound);
    }

    // Without what does not reach the sound: title, code and version, names of prints and sections, word length and tails.
    private static string Sound(Chain part) => ChainWriter.Canonical(part with
    {
        Song = part.Song with { Title = "", Code = "", Version = 1, Tempo = null },
        Prints = [.. part.Prints.Select(p => p with { Name = "" })],
        Output = new OutputSettings { RoughWithBus = part.Output.RoughWithBus is { } withBus ? new RoughPrint(0, "", withBus.LevelDb) : null },
    }) + (part.Song.Tempo is { } tempo ? TempoWriter.Canonical(new TempoMap("", tempo.Stretches, [], tempo.LastBar)) : "");

    private bool HasOtherSound(string file)
    {
        if (_reachA.Outside(file) is not null || _reachB.Outside(file) is not null)
        {
            return true; // it is not looked at, and the render says so
        }

        var (a, b) = (Path.GetFullPath(Path.Combine(_a.Folder, file)), Path.GetFullPath(Path.Combine(_b.Folder, file)));
        return a != b && File.Exists(a) && File.Exists(b) && FileHash.AudioSha256(a) != FileHash.AudioSha256(b);
    }
}
