using DrumPrint.Chains;
using DrumPrint.Chains.Format;

namespace DrumPrint.Diff;

internal sealed partial class ChainChanges
{
    // Nothing of the sound depends on these, so they reach no print.
    private void Accepted()
    {
        var (a, b) = (_a.Chain.Accepted.Select(Accepted).ToList(), _b.Chain.Accepted.Select(Accepted).ToList());
        if (IsOfOnePrint)
        {
            return;
        }

        foreach (var text in a.Except(b, StringComparer.Ordinal))
        {
            Add("signed off", $"{text}: no longer", ChangeScope.None);
        }

        foreach (var text in b.Except(a, StringComparer.Ordinal))
        {
            Add("signed off", $"{text}: added", ChangeScope.None);
        }
    }

    private static string Accepted(Acceptance accepted)
    {
        var track = accepted.Track is null ? "" : $" of {accepted.Track}";
        var most = accepted.UpTo is { } upTo ? FormattableString.Invariant($", up to {upTo}") : "";
        return $"{accepted.Rule}{track}{most} ({accepted.Why})";
    }

    private void Delivery()
    {
        var (a, b) = (_a.Chain.Delivery, _b.Chain.Delivery);
        if (IsOfOnePrint)
        {
            return;
        }

        Word("delivery", "names", a.Names ?? NamePattern.OfPrints, b.Names ?? NamePattern.OfPrints, ChangeScope.None);
        var (before, now) = (a.Wishes.Select(Wished).ToList(), b.Wishes.Select(Wished).ToList());
        foreach (var text in before.Except(now, StringComparer.Ordinal))
        {
            Add("delivery", $"wish {text}: no longer", ChangeScope.None);
        }

        foreach (var text in now.Except(before, StringComparer.Ordinal))
        {
            Add("delivery", $"wish {text}: added", ChangeScope.None);
        }
    }

    private void Reference()
    {
        if (IsOfOnePrint)
        {
            return;
        }

        const string Subject = "reference";
        if (_a.Chain.Reference is not { } a || _b.Chain.Reference is not { } b)
        {
            if ((_a.Chain.Reference ?? _b.Chain.Reference) is { } only)
            {
                Add(Subject, $"{only.File} {(_a.Chain.Reference is null ? "added" : "left out")}", ChangeScope.None);
            }

            return;
        }

        Word(Subject, "file", a.File, b.File, ChangeScope.None);
        if (a.Delay != b.Delay)
        {
            Add(Subject, ChangeWords.Moved(a.Delay, b.Delay), ChangeScope.None);
        }

        Number(Subject, ReferenceKeys.Latency, a.LatencyMs, b.LatencyMs, ChangeScope.None);
        Word(Subject, "resampling", ChangeWords.Toggle(a.Convert), ChangeWords.Toggle(b.Convert), ChangeScope.None);
    }

    private static string Wished(Wish wish) =>
        FormattableString.Invariant($"of version {wish.Version} “{wish.Text}”{(wish.About.Count == 0 ? "" : $" about {string.Join(", ", wish.About)}")}{(wish.Answer is null ? "" : $", answered “{wish.Answer}”")}");
}
