using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Files;
using DrumPrint.Language;
using DrumPrint.Tickets;

namespace DrumPrint.Delivering;

/// <summary>Brings raw tracks and impulses into a delivery, to the byte as they are and proved by the ticket.</summary>
/// <param name="chain">The chain.</param>
/// <param name="ticket">The ticket of its prints.</param>
/// <param name="staged">The delivery.</param>
/// <param name="reading">Which files the chain may name.</param>
/// <param name="cancel">Stops it.</param>
internal sealed class SourceFiles(Chain chain, Ticket ticket, StagedFolder staged, ReadPolicy reading, CancellationToken cancel)
{
    private readonly HashSet<string> _taken = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>Impulses whose licence does not say that they may be passed on, among those that were heard.</summary>
    public static IReadOnlyList<string> Kept(Chain chain, Ticket ticket) => [.. Heard(chain, ticket).Where(i => !i.MayBePassedOn).Select(i => i.Name)];

    /// <summary>Every raw file once, under the tracks that were taken from it.</summary>
    public IReadOnlyList<DeliveredFile> Raw() =>
    [
        .. chain.Tracks.SelectMany(t => t.Files.Select(f => (t.Name, File: f))).GroupBy(t => t.File, StringComparer.Ordinal)
            .Select(g => Add(DeliveredKind.Raw, "raw", g.Key, string.Join(", ", g.Select(t => t.Name)), ticket.Tracks.FirstOrDefault(t => t.File == g.Key))),
    ];

    /// <summary>Every impulse that was heard and may be passed on.</summary>
    public IReadOnlyList<DeliveredFile> Impulses() =>
    [
        .. Heard(chain, ticket).Where(i => i.MayBePassedOn).Select(i => Add(DeliveredKind.Impulse, "impulse", i.File, i.Name, ticket.Impulses.First(r => r.Name == i.Name))),
    ];

    private static IEnumerable<ImpulseFile> Heard(Chain chain, Ticket ticket) => chain.Impulses.Where(i => ticket.Impulses.Any(r => r.Name == i.Name));

    private DeliveredFile Add(DeliveredKind kind, string word, string file, string called, RecordedInput? input)
    {
        if (new SessionReach(reading, chain.Folder).Outside(file) is not null)
        {
            throw new UsageException($"{Show.Name(file)} lies outside the session, so it is not passed on. Copy it in, and name it there in the chain.");
        }

        var path = Path.Combine(chain.Folder, file);
        if (!File.Exists(path))
        {
            throw new UsageException($"{path}: this {(kind == DeliveredKind.Raw ? "raw track" : "impulse")} was asked for, and it is not there.");
        }

        var name = DeliveredName.OfSource(word, file, _taken);
        staged.Copy(path, name, cancel);
        var audio = FileHash.AudioSha256(staged.PathOf(name), cancel);
        if (input is not null && audio != input.AudioSha256)
        {
            throw new UsageException($"{Show.Name(file)} is not what these prints were made of; it was changed since. Print again: drumprint print {chain.Path}");
        }

        return new DeliveredFile(name, kind, new FileInfo(staged.PathOf(name)).Length, FileHash.Sha256(staged.PathOf(name), cancel)) { Called = called, SourceSha256 = audio };
    }
}
