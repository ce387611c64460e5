using DrumPrint.Language;

namespace DrumPrint.Delivering;

/// <summary>The delivery that is there already: it is never overwritten.</summary>
internal static class EarlierDelivery
{
    /// <summary>Passes where a folder is, to the last byte, what would be delivered.</summary>
    /// <param name="target">The folder.</param>
    /// <param name="manifest">What would be delivered.</param>
    /// <exception cref="UsageException">It is something else; the message says what, and what to do.</exception>
    public static void RequireSame(string target, DeliveryManifest manifest)
    {
        const string advice = "A delivery is never overwritten. Raise \"version\" in \"song\" and print, or deliver to another folder with --to.";
        if (!Directory.Exists(target) || !Directory.EnumerateFiles(target, "*" + DeliveryManifest.End).Any())
        {
            throw new UsageException($"{target} is there already, and is no delivery. Move it away, or deliver to another folder with --to.");
        }

        var there = DeliveryManifest.ReadIn(target);
        var other = manifest.Files.Where(f => f.Sound is { } s && there.Files.FirstOrDefault(t => t.Name == f.Name) is { Sound: { } before } && before.AudioSha256 != s.AudioSha256).Select(f => f.Name).ToList();
        if (other.Count > 0)
        {
            throw new UsageException($"{target} is version {Show.Number(manifest.Version)} already, and {Show.Some(other)} {(other.Count == 1 ? "has" : "have")} other samples there. {advice}");
        }

        if (there.ToText() != manifest.ToText())
        {
            var differ = manifest.Files.Where(f => there.Files.FirstOrDefault(t => t.Name == f.Name)?.FileSha256 != f.FileSha256).Select(f => f.Name).ToList();
            throw new UsageException($"{target} is version {Show.Number(manifest.Version)} already, and not the same{(differ.Count == 0 ? "" : $": {Show.Some(differ)}")}. {advice}");
        }

        var check = DeliveryCheck.Check(target);
        if (!check.IsWhole)
        {
            throw new UsageException($"{target} is there already, and was changed since it was delivered: {check.Findings[0].Text} {advice}");
        }
    }
}
