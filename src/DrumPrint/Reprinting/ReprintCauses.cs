using DrumPrint.Audio;
using DrumPrint.Diff;
using DrumPrint.Session;

namespace DrumPrint.Reprinting;

/// <summary>Finds the most likely reason why a print came out otherwise.</summary>
/// <param name="job">What was made again.</param>
/// <param name="found">The raw files it was made from.</param>
internal sealed class ReprintCauses(ReprintJob job, Dictionary<(string File, string AudioSha256), FoundInput> found)
{
    private const int MostDifferences = 3;
    private const string TagsChanged = "Its tags were changed after it was made.";

    private readonly PrintSelection _all = PrintSelection.Of(job.Chain, []);

    /// <summary>Why other samples came out.</summary>
    /// <param name="old">The print.</param>
    /// <param name="audioSha256">Hash of the new samples.</param>
    public string OfOtherAudio(OldPrint old, string audioSha256)
    {
        if (OfInputsOrChain(old) is { } known)
        {
            return known;
        }

        if (old.Recorded?.AudioSha256 == audioSha256)
        {
            return "The print itself was changed after it was made: the new one is what its ticket says.";
        }

        return Seal(old) is { } seal && seal.AudioSha256 != FileHash.Of(old.Path!, AudioHashes.Samples).AudioSha256
            ? "The print itself was changed after it was made: its samples no longer have the hash that it carries."
            : OtherEngine ?? "Its samples were changed after it was made, or this machine computes otherwise; chain, raw files and version are the same.";
    }

    /// <summary>Why the samples are the same but the file is not.</summary>
    public string OfOtherMetadata(OldPrint old) => OfInputsOrChain(old) ?? (Seal(old) is { IsHeaderWhole: false } ? TagsChanged : OtherEngine ?? TagsChanged);

    // What a print says of its own bytes comes before what versions may explain; null when it says nothing.
    private static FileSeal? Seal(OldPrint old) => old.Path is { } path ? FileSeal.Read(path) : null;

    private string? OtherEngine => job.Engine == EngineVersion.Text ? null : $"It was printed by DrumPrint {job.Engine}; this is {EngineVersion.Text}.";

    private string? OfInputsOrChain(OldPrint old)
    {
        var part = ChainPart.Of(job.Chain, _all.All.First(t => t.Number == old.Number));
        var files = part.Tracks.SelectMany(t => t.Files).Concat(part.Impulses.Select(i => i.File)).ToHashSet(StringComparer.Ordinal);
        var changed = job.Tracks.Concat(job.Impulses).Where(i => files.Contains(i.File) && found[(i.File, i.AudioSha256)].IsChanged).ToList();
        if (changed.Count > 0)
        {
            return $"{string.Join(", ", changed.Select(i => $"'{i.Name}' ({i.File})"))} {(changed.Count == 1 ? "has" : "have")} changed since.";
        }

        return OtherChain(old, part) ?? (job.IsChainEdited
            ? $"The chain in {Path.GetFileName(job.Source)} was changed after the print was made; it no longer has the hash taken down with it."
            : null);
    }

    // Print and ticket both say by which chain the print was made.
    private string? OtherChain(OldPrint old, Chains.Chain part)
    {
        if (old.Witness is not { } witness)
        {
            return null;
        }

        var differences = ChainDifferences.Of(witness.Chain, witness.Where, part, $"in {Path.GetFileName(job.Source)}");
        if (differences.Count == 0)
        {
            return null;
        }

        var more = differences.Count > MostDifferences ? FormattableString.Invariant($"; and {differences.Count - MostDifferences} more") : "";
        return $"The chain is another one. {string.Join("; ", differences.Take(MostDifferences))}{more}.";
    }
}
