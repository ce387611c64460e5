using DrumPrint.Chains;
using DrumPrint.Comparing.Pairs;
using DrumPrint.Session;

namespace DrumPrint.Comparing.Targets;

/// <summary>Chooses the print in front: the one that was asked for, else one that differs.</summary>
internal static class FrontPrint
{
    /// <exception cref="UsageException">There is none, or nothing would be compared in it.</exception>
    public static PrintTarget Of(ChainPairs pairs, ComparisonOptions options, Song song) => options switch
    {
        { Without: { } part } when pairs.OnlyInA.Count + pairs.Differing.Count == 0 => throw new UsageException(ChainWithout.IsOfDrumBus(part)
            ? $"--without {part}: the drum bus is heard on the second rough only, and this chain prints none."
            : $"--without {part}: no print of this chain is any different without it."),
        { Without: { } part, Print: { } word } => Reached(pairs, part, word, song),
        { Without: { } part } => Reached(pairs, part),
        { Print: { } word } => Asked(pairs, word, song),
        _ => Differing(pairs),
    };

    private static PrintTarget Reached(ChainPairs pairs, string part, string word, Song song)
    {
        if (Find(pairs.Differing, word, song) is { } front)
        {
            return front;
        }

        if (Find(pairs.OnlyInA, word, song) is { } gone)
        {
            throw new UsageException($"--print {word}: {ChainPairs.Title(gone)} is gone without '{part}', so there is nothing to hold it against. {Comparable(pairs, part)}");
        }

        throw Find(pairs.Both, word, song) is { } untouched
            ? new UsageException($"--print {word}: '{part}' is not in {ChainPairs.Title(untouched)}, which is the same with it and without it. {Reach(pairs, part, "It")}")
            : new UsageException($"--print {word}: the chain has no such print. {Reach(pairs, part, $"'{part}'")}");
    }

    private static PrintTarget Reached(ChainPairs pairs, string part)
    {
        var differing = pairs.Differing;
        return differing.FirstOrDefault(t => t.Kind == PrintKind.Rough)
            ?? differing.FirstOrDefault(t => t.Kind == PrintKind.RoughWithBus)
            ?? (differing.Count > 0 ? differing[0] : throw new UsageException($"--without {part}: {Reach(pairs, part, "it")}"));
    }

    private static string Reach(ChainPairs pairs, string part, string subject)
    {
        var reach = $"{subject} reaches {ChainPairs.Titles(pairs.OnlyInA.Concat(pairs.Differing).OrderBy(t => t.Number))}";
        return pairs.OnlyInA.Count == 0 ? $"{reach}." : $"{reach}. {Gone(pairs)} {Comparable(pairs, part)}";
    }

    private static string Gone(ChainPairs pairs) =>
        $"Without it {ChainPairs.Titles(pairs.OnlyInA)} {(pairs.OnlyInA.Count == 1 ? "is" : "are")} gone.";

    private static string Comparable(ChainPairs pairs, string part) => pairs.Differing.Count == 0
        ? $"No other print is any different without '{part}'."
        : $"What can be compared: {ChainPairs.Titles(pairs.Differing)}.";

    private static PrintTarget Asked(ChainPairs pairs, string word, Song song)
    {
        if (Find(pairs.Both, word, song) is { } front)
        {
            return front;
        }

        var both = pairs.Both.Count > 0 ? $"Both sides have {ChainPairs.Titles(pairs.Both)}." : "The chains have no print in common.";
        throw new UsageException((Find(pairs.OnlyInA, word, song), Find(pairs.OnlyInB, word, song)) switch
        {
            ({ } a, _) => $"--print {word}: {ChainPairs.Title(a)} is in A only. {both}",
            (_, { } b) => $"--print {word}: {ChainPairs.Title(b)} is in B only. {both}",
            _ => $"--print {word}: neither side has such a print. {both}",
        });
    }

    // The rough, unless all that differs is elsewhere: sides that are the same would be no answer.
    private static PrintTarget Differing(ChainPairs pairs)
    {
        List<PrintTarget> roughs = [.. pairs.Both.Where(t => t.Kind is PrintKind.Rough or PrintKind.RoughWithBus).OrderBy(t => t.Kind)];
        return roughs.Find(pairs.Differing.Contains)
            ?? (pairs.Differing.Count > 0 ? pairs.Differing[0] : null)
            ?? (roughs.Count > 0 ? roughs[0] : null)
            ?? (pairs.Both.Count == 1 ? pairs.Both[0] : throw new UsageException(pairs.Both.Count == 0
                ? "The chains have no print in common."
                : $"The chains have no rough in common. Name a print with --print: {ChainPairs.Titles(pairs.Both)}."));
    }

    private static PrintTarget? Find(IEnumerable<PrintTarget> targets, string word, Song song) =>
        targets.FirstOrDefault(t => PrintWord.Fits(word, t.Number, t.Name, t.Kind, PrintFileName.Of(t.Number, t.Name, song)));
}
