using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Diff;
using DrumPrint.Files;
using DrumPrint.Tickets;

namespace DrumPrint.Delivering;

/// <summary>What a delivery is beside the one before.</summary>
/// <param name="Folder">Where the one before lies.</param>
/// <param name="Earlier">Its manifest.</param>
/// <param name="ManifestSha256">Hash of its manifest.</param>
internal sealed record Revision(string Folder, DeliveryManifest Earlier, string ManifestSha256)
{
    /// <summary>The delivery before: the one that was named, or the highest earlier version in the same place; null when there is none.</summary>
    /// <param name="song">The song.</param>
    /// <param name="place">The folder that deliveries go to.</param>
    /// <param name="since">The delivery that was named.</param>
    /// <exception cref="DeliveryException">The one that was named cannot be used.</exception>
    /// <exception cref="UsageException">It is no earlier version of this song.</exception>
    public static Revision? Find(Song song, string place, string? since)
    {
        if (since is not null)
        {
            var named = Read(since);
            return named.Earlier.Code != song.Code
                ? throw new UsageException($"--since {since}: this is a delivery of {named.Earlier.Code}, and the chain is of {song.Code}.")
                : named.Earlier.IsPart
                ? throw new UsageException($"--since {since}: this folder holds only what changed since version {Text(named.Earlier.SinceVersion)}. Name the whole delivery.")
                : named.Earlier.Version >= song.Version
                ? throw new UsageException($"--since {since}: this is version {Text(named.Earlier.Version)}, and the chain is version {Text(song.Version)}. Raise \"version\" in \"song\" for a new delivery, and print.")
                : named;
        }

        for (var version = song.Version - 1; version > 0; version--)
        {
            var folder = Path.Combine(place, FormattableString.Invariant($"{song.Code}_v{version}"));
            if (Directory.Exists(folder) && Directory.EnumerateFiles(folder, "*" + DeliveryManifest.End).Any())
            {
                return Read(folder);
            }
        }

        return null;
    }

    /// <summary>What became of a file.</summary>
    public DeliveredState StateOf(DeliveredFile file)
    {
        if (AudioHash(file) is not { } audio)
        {
            return DeliveredState.Unsaid;
        }

        return Before(file) is not { } before ? DeliveredState.New : AudioHash(before) == audio ? DeliveredState.Unchanged : DeliveredState.Changed;
    }

    /// <summary>Sounds of the delivery before that are no more.</summary>
    public IReadOnlyList<string> Withdrawn(IReadOnlyList<DeliveredFile> files) =>
    [
        .. Earlier.Files.Where(b => AudioHash(b) is not null && !files.Any(f => IsSame(b, f))).Select(f => f.Name),
    ];

    /// <summary>A sentence on files whose samples are those of before as far as both go; null where there is none.</summary>
    /// <remarks>A longer or shorter tail of one print makes every file longer or shorter.</remarks>
    public string? OnlyLength(IReadOnlyList<DeliveredFile> files, int rateHz)
    {
        var alike = files.Where(f => f.Sound is { Pieces.Length: > 0 } now && Before(f) is { Sound: { Pieces.Length: > 0 } before } && now.Frames != before.Frames
            && now.Pieces.AsSpan().CommonPrefixLength(before.Pieces) == Math.Min(now.Pieces.Length, before.Pieces.Length)).ToList();
        if (alike.Count == 0)
        {
            return null;
        }

        var seconds = alike.Min(f => Math.Min(f.Sound!.Frames, Before(f)!.Sound!.Frames)) / rateHz;
        return string.Create(
            CultureInfo.InvariantCulture,
            $"only the length differs of {string.Join(", ", alike.Where(f => f.Kind != DeliveredKind.Dry).Select(f => f.Number!.Value.ToString("00", CultureInfo.InvariantCulture)).Distinct())}: the first {seconds} s hold the same samples as before");
    }

    /// <summary>What was changed, in the words of <c>diff</c>; the version itself is no news, and wishes are told elsewhere.</summary>
    public (IReadOnlyList<Change> Changes, string? Trouble) Changes(Ticket ticket, string ticketPath)
    {
        var path = Path.Combine(Folder, FormattableString.Invariant($"{Earlier.Code}_v{Earlier.Version}{TicketFiles.End}"));
        if (!File.Exists(path) || new FileInfo(path).LinkTarget is not null)
        {
            return ([], "The delivery before holds no ticket, so what was changed in the chain is not known; which files changed is.");
        }

        try
        {
            return (
                [
                    .. Differ.Between(Made.Of(path, Ticket.Read(path)), Made.Of(ticketPath, ticket))
                        .Where(c => c.Subject != WishAnswers.Subject && (c is not { Subject: "song" } || !c.Text.StartsWith("version ", StringComparison.Ordinal))),
                ],
                null);
        }
        catch (TicketException)
        {
            return ([], "The ticket of the delivery before cannot be read, so what was changed in the chain is not known; which files changed is.");
        }
    }

    private DeliveredFile? Before(DeliveredFile file) => Earlier.Files.FirstOrDefault(b => AudioHash(b) is not null && IsSame(b, file));

    private static string? AudioHash(DeliveredFile file) => file.SourceSha256 ?? file.Sound?.AudioSha256;

    // A number may come to stand for another print, and a print may get another number.
    private static bool IsSame(DeliveredFile a, DeliveredFile b) =>
        a.Number == b.Number && a.Title == b.Title && a.Side == b.Side && a.Called == b.Called && IsBeside(a.Kind) == IsBeside(b.Kind);

    // An extra may come to play, but a dry twin is no print.
    private static DeliveredKind? IsBeside(DeliveredKind kind) => kind is DeliveredKind.Dry or DeliveredKind.Raw or DeliveredKind.Impulse ? kind : null;

    private static Revision Read(string folder)
    {
        var path = DeliveryManifest.PathIn(folder);
        return new Revision(folder, DeliveryManifest.Read(path), Audio.FileHash.Sha256(path));
    }

    private static string Text(int? number) => number?.ToString(CultureInfo.InvariantCulture) ?? "none";
}
