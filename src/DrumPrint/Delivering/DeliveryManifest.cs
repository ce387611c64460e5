using DrumPrint.Audio;
using DrumPrint.Files;

namespace DrumPrint.Delivering;

/// <summary>What a delivery holds, file by file, so that a receiver can check it without the chain.</summary>
public sealed record DeliveryManifest
{
    /// <summary>How the name of every manifest ends.</summary>
    internal const string End = ".delivery.json";

    /// <summary>Version of the program that delivered.</summary>
    public required string Engine { get; init; }

    /// <summary>Title as people write it.</summary>
    public required string Title { get; init; }

    /// <summary>Short form used in file names.</summary>
    public required string Code { get; init; }

    /// <summary>Version of the delivery.</summary>
    public required int Version { get; init; }

    /// <summary>Sample rate of every sound in it.</summary>
    public required int RateHz { get; init; }

    /// <summary>Length of every sound in it.</summary>
    public required long Frames { get; init; }

    /// <summary>Word length of every sound in it.</summary>
    public required SampleEncoding Encoding { get; init; }

    /// <summary>Hash of the chain's canonical text.</summary>
    public required string ChainSha256 { get; init; }

    /// <summary>Sample rate of the prints; null where they were delivered at it.</summary>
    public int? PrintedRateHz { get; init; }

    /// <summary>Word length of the prints, as a chain says it; null where they were delivered at it.</summary>
    public string? PrintedBits { get; init; }

    /// <summary>Version of the delivery it follows; null for the first.</summary>
    public int? SinceVersion { get; init; }

    /// <summary>Hash of that delivery's manifest; null for the first.</summary>
    public string? SinceSha256 { get; init; }

    /// <summary>Whether it holds only what changed since then.</summary>
    public bool IsPart { get; init; }

    /// <summary>Every file but the manifest and the list of sums.</summary>
    public required IReadOnlyList<DeliveredFile> Files { get; init; }

    /// <summary>Files of the delivery before that are no more, by name.</summary>
    public IReadOnlyList<string> Withdrawn { get; init; } = [];

    /// <summary>What was changed, in sentences.</summary>
    public IReadOnlyList<string> Changes { get; init; } = [];

    /// <summary>What the mixer asked for, each beside what was changed for it.</summary>
    public IReadOnlyList<AnsweredWish> Wishes { get; init; } = [];

    /// <summary>Name of the folder: song, version, rate and depth stay in the sheet.</summary>
    public string FolderName => IsPart
        ? FormattableString.Invariant($"{Code}_v{Version}_since_v{SinceVersion}")
        : FormattableString.Invariant($"{Code}_v{Version}");

    /// <summary>Name of the file that holds it.</summary>
    public string FileName => FormattableString.Invariant($"{Code}_v{Version}{End}");

    /// <summary>The manifest of a folder.</summary>
    /// <exception cref="DeliveryException">There is none, there are several, or it cannot be used.</exception>
    public static DeliveryManifest ReadIn(string folder) => ManifestReader.Read(PathIn(folder));

    /// <summary>Reads a manifest.</summary>
    /// <exception cref="DeliveryException">It cannot be used; every mistake is named.</exception>
    public static DeliveryManifest Read(string path) => ManifestReader.Read(path);

    /// <summary>The manifest as JSON.</summary>
    public string ToText() => ManifestWriter.Text(this);

    /// <summary>Where the manifest of a folder lies.</summary>
    /// <exception cref="DeliveryException">There is none, or there are several.</exception>
    internal static string PathIn(string folder)
    {
        List<string> found;
        try
        {
            found = [.. Directory.EnumerateFiles(folder, "*" + End).Where(f => !Path.GetFileName(f).StartsWith('.')).Order(StringComparer.Ordinal)];
        }
        catch (Exception e) when (FileErrors.Are(e))
        {
            throw new DeliveryException($"{folder}: this folder cannot be read: {FileReason.Of(e)}.", e);
        }

        return found.Count switch
        {
            1 => found[0],
            0 => throw new DeliveryException($"{folder} holds no manifest, a file that ends in {End}: it is no delivery of DrumPrint, or the file was lost on the way. Ask for the delivery again."),
            _ => throw new DeliveryException($"{folder} holds {found.Count.ToString(System.Globalization.CultureInfo.InvariantCulture)} manifests: {string.Join(", ", found.Select(Path.GetFileName))}. Each delivery keeps a folder of its own; take them apart."),
        };
    }

    /// <summary>The files of a kind, by number.</summary>
    internal IReadOnlyList<DeliveredFile> Of(DeliveredKind kind) => [.. Files.Where(f => f.Kind == kind).OrderBy(f => f.Number)];

    /// <summary>The first file of a kind; null without one.</summary>
    internal DeliveredFile? First(DeliveredKind kind) => Files.FirstOrDefault(f => f.Kind == kind);
}
