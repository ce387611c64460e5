using System.Security.Cryptography;
using System.Text;
using DrumPrint.Files;

namespace DrumPrint.Audio;

/// <summary>What a wave file of ours says of its own bytes: whoever reads it can tell that nobody has changed it since.</summary>
/// <remarks>
/// A chunk of the header holds two hashes, as JSON without spaces. The first is that of the samples. The second, right after it,
/// is that of the header: of all that stands before the samples, with the digits of that very hash as zeros. Both are of fixed
/// length, so that the room for them is known before the samples are. The seal finds what other programs do to a file; it is no
/// proof against somebody who makes the hashes anew.
/// </remarks>
/// <param name="AudioSha256">Hash of the samples, as taken down.</param>
/// <param name="IsHeaderWhole">Whether the header is as it was written, and nothing stands behind the samples.</param>
internal sealed record FileSeal(string AudioSha256, bool IsHeaderWhole)
{
    /// <summary>The key that the hash of the samples stands under.</summary>
    public const string AudioKey = "audio_sha256";

    /// <summary>The key that the hash of the header stands under.</summary>
    public const string HeaderKey = "header_sha256";

    private const int Digits = 64;
    private const int MostHeaderBytes = 64 << 20;

    /// <summary>What stands in place of a hash that is not known yet.</summary>
    public static readonly string Blank = new('0', Digits);

    private static readonly byte[] AudioMark = Encoding.ASCII.GetBytes($"\"{AudioKey}\":\"");
    private static readonly byte[] HeaderMark = Encoding.ASCII.GetBytes($"\",\"{HeaderKey}\":\"");

    /// <summary>Whether a file is, to the last byte, as it was written.</summary>
    /// <param name="audioSha256">Hash of its samples as they are.</param>
    public bool Holds(string audioSha256) => IsHeaderWhole && audioSha256 == AudioSha256;

    /// <summary>Puts the hash of a header in its place; does nothing where none is kept for it.</summary>
    /// <param name="header">All that stands before the samples.</param>
    public static void Close(Span<byte> header)
    {
        if (Find(header) is { } at)
        {
            Encoding.ASCII.GetBytes(Hash(header), header.Slice(at, Digits));
        }
    }

    /// <summary>Reads what a file says of itself.</summary>
    /// <returns>Null when it says nothing.</returns>
    /// <exception cref="AudioFileException">The file is not a readable sound file.</exception>
    public static FileSeal? Read(string path)
    {
        try
        {
            using var handle = RegularFile.Open(path);
            return Read(new FileView(handle, path));
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Reading(path, e);
        }
    }

    private static FileSeal? Read(FileView file)
    {
        if (file.Length < WaveHeader.OuterHeaderBytes || !WaveHeaderReader.Recognises(file.ReadId(0)))
        {
            return null;
        }

        var samples = WaveHeaderReader.Read(file).Samples;
        var header = file.Read(0, Math.Min(samples.Offset, MostHeaderBytes));
        if (Find(header) is not { } at)
        {
            return null;
        }

        var taken = Encoding.ASCII.GetString(header, at, Digits);
        var audio = Encoding.ASCII.GetString(header, at - HeaderMark.Length - Digits, Digits);
        Encoding.ASCII.GetBytes(Blank, header.AsSpan(at, Digits));
        return new FileSeal(audio, taken == Hash(header) && file.Length == samples.End + (samples.Bytes % 2));
    }

    // Where the digits of the header's hash begin. Quotes within a JSON text are escaped, so a title cannot pass for a seal. The
    // last one counts, for what stands before our chunk is free text.
    private static int? Find(ReadOnlySpan<byte> header)
    {
        var mark = header.LastIndexOf(HeaderMark);
        var audio = mark - Digits - AudioMark.Length;
        return audio >= 0 && mark + HeaderMark.Length + Digits <= header.Length && header.Slice(audio, AudioMark.Length).SequenceEqual(AudioMark)
            ? mark + HeaderMark.Length
            : null;
    }

    private static string Hash(ReadOnlySpan<byte> header) => Convert.ToHexStringLower(SHA256.HashData(header));
}
