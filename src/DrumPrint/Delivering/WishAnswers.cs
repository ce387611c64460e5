using DrumPrint.Chains;
using DrumPrint.Diff;

namespace DrumPrint.Delivering;

/// <summary>Pairs the wishes of a mixer with what was changed.</summary>
internal static class WishAnswers
{
    /// <summary>Subject under which a change of the wishes themselves is told: no news beside them.</summary>
    public const string Subject = "delivery";

    /// <summary>The wishes that versions after an earlier one answer, in the order of the chain.</summary>
    /// <param name="song">The song.</param>
    /// <param name="wishes">All that was asked for.</param>
    /// <param name="since">The version before; null for the first delivery.</param>
    /// <param name="changes">What was changed since.</param>
    public static IReadOnlyList<AnsweredWish> Of(Song song, IReadOnlyList<Wish> wishes, int? since, IReadOnlyList<Change> changes) =>
    [
        .. wishes.Where(w => w.Version > (since ?? song.Version - 1) && w.Version <= song.Version)
            .Select(w => new AnsweredWish(w.Version, w.Text, [.. changes.Where(c => IsAbout(w, c)).Select(Words)], w.Answer)),
    ];

    /// <summary>A change with the prints it reaches.</summary>
    public static string Words(Change change) => change.Reaches.Count == 0 ? change.ToString() : $"{change} — reaches {string.Join(", ", change.Reaches.Select(p => p.Split(' ')[0]))}";

    // A print's subject is its number and its name.
    private static bool IsAbout(Wish wish, Change change) =>
        wish.About.Any(name => name == change.Subject || (change.Subject.Length > name.Length && int.TryParse(change.Subject.AsSpan(0, change.Subject.Length - name.Length), out _) && change.Subject.EndsWith(' ' + name, StringComparison.Ordinal)));
}
