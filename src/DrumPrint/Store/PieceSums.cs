using System.Buffers.Binary;
using System.Security.Cryptography;

namespace DrumPrint.Store;

/// <summary>Sums of the numbered pieces of one file.</summary>
/// <remarks>
/// AES-GCM over nothing, with the piece as associated data: GMAC, NIST SP 800-38D. Its key belongs to one file, and its nonce is
/// the number of the piece. So no nonce is used twice, and no piece can stand in another's place. GMAC reads several gigabytes a
/// second. A hash by HMAC would cost more than the signals that are read.
/// </remarks>
/// <param name="key">The key of the file, 32 bytes.</param>
internal sealed class PieceSums(byte[] key) : IDisposable
{
    /// <summary>Length of a sum.</summary>
    public const int Bytes = 16;

    private const int NonceBytes = 12;

    private readonly AesGcm _cipher = new(key, Bytes);

    /// <summary>Works out a sum.</summary>
    /// <param name="number">Of the piece; each is used for one piece only.</param>
    /// <param name="piece">Its bytes.</param>
    /// <param name="sum">Gets <see cref="Bytes"/> bytes.</param>
    public void Of(long number, ReadOnlySpan<byte> piece, Span<byte> sum)
    {
        Span<byte> nonce = stackalloc byte[NonceBytes];
        nonce.Clear();
        BinaryPrimitives.WriteInt64LittleEndian(nonce, number);
        _cipher.Encrypt(nonce, [], [], sum, piece);
    }

    /// <summary>Whether a piece is followed by its own sum.</summary>
    /// <param name="number">Of the piece.</param>
    /// <param name="bytes">The piece and its sum.</param>
    public bool IsRight(long number, ReadOnlySpan<byte> bytes)
    {
        Span<byte> sum = stackalloc byte[Bytes];
        Of(number, bytes[..^Bytes], sum);
        return CryptographicOperations.FixedTimeEquals(sum, bytes[^Bytes..]);
    }

    public void Dispose() => _cipher.Dispose();
}
