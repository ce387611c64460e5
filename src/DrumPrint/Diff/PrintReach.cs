using DrumPrint.Chains;
using DrumPrint.Session;

namespace DrumPrint.Diff;

/// <summary>Everything one print depends on, by name. It is worked out once and then asked for each change.</summary>
internal sealed class PrintReach
{
    private PrintReach(Chain chain, PrintTarget target)
    {
        var part = ChainPart.Of(chain, target);
        Target = target;
        Sources = [.. part.Tracks.Select(t => t.Name), .. part.Buses.Select(b => b.Name)];
        Impulses = [.. part.Impulses.Select(i => i.Name)];
        Prints = [.. part.Prints.Select(p => p.Number)];
        HearsTempo = part.Song.Tempo is not null;
    }

    public PrintTarget Target { get; }

    /// <summary>Tracks and buses.</summary>
    public HashSet<string> Sources { get; }

    public HashSet<string> Impulses { get; }

    /// <summary>Numbers of the prints that are part of it.</summary>
    public HashSet<int> Prints { get; }

    public bool HearsTempo { get; }

    /// <summary>Each print of a chain, or the one that it is about; one at a time, since a long chain may have many.</summary>
    public static IEnumerable<PrintReach> Of(Made made) => PrintSelection.Of(made.Chain, []).All
        .Where(t => made.Number is not { } only || t.Number == only)
        .Select(t => new PrintReach(made.Chain, t));
}
