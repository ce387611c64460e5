using DrumPrint.Chains;
using DrumPrint.Session;

namespace DrumPrint.Diff;

/// <summary>What a change touches, and so which prints it reaches.</summary>
internal sealed class ChangeScope
{
    private readonly Func<PrintTarget, Chain, bool> _touches;

    private ChangeScope(Func<PrintTarget, Chain, bool> touches) => _touches = touches;

    /// <summary>Every print.</summary>
    public static ChangeScope All { get; } = new((_, _) => true);

    /// <summary>No print.</summary>
    public static ChangeScope None { get; } = new((_, _) => false);

    /// <summary>Prints that hear the tempo map.</summary>
    public static ChangeScope Tempo { get; } = new((_, part) => part.Song.Tempo is not null);

    /// <summary>A track or bus.</summary>
    public static ChangeScope Source(string name) => new((_, part) => part.Tracks.Any(t => t.Name == name) || part.Buses.Any(b => b.Name == name));

    public static ChangeScope Impulse(string name) => new((_, part) => part.Impulses.Any(i => i.Name == name));

    /// <summary>One print, and the roughs it is part of.</summary>
    public static ChangeScope Print(int number) => new((target, part) => target.Number == number || part.Prints.Any(p => p.Number == number));

    /// <summary>The files of one kind.</summary>
    public static ChangeScope Kind(PrintKind kind) => new((target, _) => target.Kind == kind);

    /// <summary>The prints of a chain that are touched.</summary>
    public IEnumerable<PrintTarget> In(Chain chain) => PrintSelection.Of(chain, []).All.Where(t => _touches(t, ChainPart.Of(chain, t)));
}
