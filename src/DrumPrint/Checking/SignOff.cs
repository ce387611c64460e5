using DrumPrint.Chains;
using DrumPrint.Checking.Findings;
using DrumPrint.Language;

namespace DrumPrint.Checking;

/// <summary>Holds findings against what the chain says is meant.</summary>
internal static class SignOff
{
    /// <summary>The findings, with the reason beside those that are signed off.</summary>
    public static IReadOnlyList<Finding> Of(IEnumerable<Finding> findings, IReadOnlyList<Acceptance> accepted) =>
        [.. findings.Select(f => accepted.FirstOrDefault(a => Fits(a, f)) is { } by ? f with { AcceptedWhy = by.Why } : f)];

    /// <summary>Signatures that stand for nothing, or for a rule that does not exist.</summary>
    /// <param name="findings">What was found.</param>
    /// <param name="chain">The chain.</param>
    /// <param name="isWhole">Whether raw files and prints were both there; a signature may be for what was not.</param>
    public static IEnumerable<string> Notes(IReadOnlyList<Finding> findings, Chain? chain, bool isWhole)
    {
        foreach (var accepted in chain?.Accepted ?? [])
        {
            var place = FormattableString.Invariant($"{chain!.Path}:{accepted.Line}: ");
            if (!Rulebook.All.Any(r => r.Id.Equals(accepted.Rule, StringComparison.OrdinalIgnoreCase)))
            {
                yield return $"{place}there is no rule '{Show.Name(accepted.Rule)}' to sign off.{(Nearest.Word(accepted.Rule, Rulebook.All.Select(r => r.Id)) is { } near ? $" Did you mean '{near}'?" : "")}";
            }
            else if (isWhole && !findings.Any(f => Fits(accepted, f)))
            {
                var more = findings.FirstOrDefault(f => Fits(accepted with { UpTo = null }, f));
                yield return more is null
                    ? $"{place}nothing is found any more that '{accepted.Rule}' signs off{(accepted.Track is null ? "" : $" of '{Show.Name(accepted.Track)}'")}; take it out."
                    : FormattableString.Invariant($"{place}'{accepted.Rule}' is signed off for up to {accepted.UpTo} places; there are {more.Count} now.");
            }
        }
    }

    /// <summary>What to write into the chain to sign a finding off.</summary>
    public static string Line(Finding finding)
    {
        var track = finding.Track.Length > 0 ? $", \"track\": \"{System.Text.Json.JsonEncodedText.Encode(finding.Track, System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping)}\"" : "";
        return $"{{ \"rule\": \"{finding.Rule.Id}\"{track}, \"why\": \"…\" }}";
    }

    private static bool Fits(Acceptance accepted, Finding finding) =>
        accepted.Rule.Equals(finding.Rule.Id, StringComparison.OrdinalIgnoreCase)
        && (accepted.Track ?? "").Equals(finding.Track, StringComparison.OrdinalIgnoreCase)
        && !(finding.Count > accepted.UpTo);
}
