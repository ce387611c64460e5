using DrumPrint.Session;

namespace DrumPrint.Diff;

/// <summary>What a change touches, and so which prints it reaches.</summary>
internal sealed class ChangeScope
{
    private readonly Func<PrintReach, bool> _touches;

    private ChangeScope(Func<PrintReach, bool> touches) => _touches = touches;

    /// <summary>Every print.</summary>
    public static ChangeScope All { get; } = new(_ => true);

    /// <summary>No print: words for the mixer.</summary>
    public static ChangeScope None { get; } = new(_ => false);

    /// <summary>Prints that hear the tempo map.</summary>
    public static ChangeScope Tempo { get; } = new(print => print.HearsTempo);

    /// <summary>A track or bus.</summary>
    public static ChangeScope Source(string name) => new(print => print.Sources.Contains(name));

    public static ChangeScope Impulse(string name) => new(print => print.Impulses.Contains(name));

    /// <summary>One print, and the roughs it is part of.</summary>
    public static ChangeScope Print(int number) => new(print => print.Target.Number == number || print.Prints.Contains(number));

    /// <summary>The files of one kind.</summary>
    public static ChangeScope Kind(PrintKind kind) => new(print => print.Target.Kind == kind);

    /// <summary>Whether a print is touched.</summary>
    public bool Touches(PrintReach print) => _touches(print);
}
