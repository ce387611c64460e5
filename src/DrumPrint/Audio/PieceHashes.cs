using System.Buffers.Binary;
using System.IO.Hashing;

namespace DrumPrint.Audio;

/// <summary>Hashes of a recording that lies in several files: those of its files, one after another.</summary>
internal static class PieceHashes
{
    private const char Between = ' ';
    private const int LikenessBytes = 16;

    /// <summary>One text for all of them; of one file its hash.</summary>
    public static string Joined(IEnumerable<string> hashes) => string.Join(Between, hashes);

    /// <summary>The hash of each file again.</summary>
    public static IReadOnlyList<string> Each(string joined) => joined.Split(Between);

    /// <summary>What tells that all files are still those of an earlier reading; null where it is not known of all.</summary>
    public static UInt128? Likeness(IEnumerable<UInt128?> each)
    {
        List<UInt128?> all = [.. each];
        if (all.Count == 1 || all.Any(l => l is null))
        {
            return all.Any(l => l is null) ? null : all[0];
        }

        var hash = new XxHash128();
        Span<byte> bytes = stackalloc byte[LikenessBytes];
        foreach (var likeness in all)
        {
            BinaryPrimitives.WriteUInt128LittleEndian(bytes, likeness!.Value);
            hash.Append(bytes);
        }

        return hash.GetCurrentHashAsUInt128();
    }

    /// <summary>The fingerprint of the recording.</summary>
    public static FileFingerprint Of(IReadOnlyList<FileFingerprint> each) => each is [var only]
        ? only
        : new FileFingerprint(each.Any(f => f.AudioSha256 is null) ? null : Joined(each.Select(f => f.AudioSha256!)), null, Likeness(each.Select(f => f.Likeness)));
}
