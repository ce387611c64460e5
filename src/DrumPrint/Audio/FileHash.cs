using System.Security.Cryptography;
using DrumPrint.Files;

namespace DrumPrint.Audio;

/// <summary>Fingerprints of files.</summary>
public static class FileHash
{
    private const int BufferBytes = 1 << 18;
    private const long StretchFrames = 1 << 20;

    /// <summary>SHA-256 of the samples of a sound file, lowest bytes first, in lower-case hexadecimal.</summary>
    /// <exception cref="AudioFileException">The file cannot be read.</exception>
    public static string AudioSha256(string path, CancellationToken cancel = default) => Of(path, AudioHashes.Samples, cancel).AudioSha256!;

    /// <summary>Several hashes of a sound file in one reading.</summary>
    /// <exception cref="AudioFileException">The file cannot be read.</exception>
    internal static FileFingerprint Of(string path, AudioHashes hashes, CancellationToken cancel = default)
    {
        using var reader = AudioReader.Open(path, hashes);
        for (var left = reader.Info.Frames; left > 0; left -= StretchFrames)
        {
            cancel.ThrowIfCancellationRequested();
            reader.Skip(Math.Min(left, StretchFrames));
        }

        return new FileFingerprint(hashes.HasFlag(AudioHashes.Samples) ? reader.AudioSha256 : null, reader.FileSha256, reader.Likeness);
    }

    /// <summary>SHA-256 of a file's bytes, in lower-case hexadecimal.</summary>
    /// <exception cref="AudioFileException">The file cannot be read.</exception>
    public static string Sha256(string path, CancellationToken cancel = default)
    {
        try
        {
            using var file = RegularFile.Open(path);
            using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
            var buffer = new byte[BufferBytes];
            var offset = 0L;
            for (var count = -1; count != 0; offset += count)
            {
                cancel.ThrowIfCancellationRequested();
                count = RandomAccess.Read(file, buffer, offset);
                hash.AppendData(buffer, 0, count);
            }

            return Convert.ToHexStringLower(hash.GetHashAndReset());
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw FileTrouble.Reading(path, e);
        }
    }
}
