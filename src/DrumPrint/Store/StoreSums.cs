using System.Security.Cryptography;
using System.Text;

namespace DrumPrint.Store;

/// <summary>The sums by which a store knows its own entries. They hang on a secret of the user, so that nobody else can write an entry that
/// passes.</summary>
internal sealed class StoreSums
{
    private readonly byte[] _key;

    /// <param name="secret">The user's secret.</param>
    /// <param name="store">The store's own name, from its mark.</param>
    public StoreSums(ReadOnlySpan<byte> secret, string store) => _key = HMACSHA256.HashData(secret, Encoding.UTF8.GetBytes($"drumprint store entries {store}"));

    /// <summary>The sum of a text: HMAC-SHA-256 in hexadecimal.</summary>
    public string Of(string text) => Convert.ToHexStringLower(HMACSHA256.HashData(_key, Encoding.UTF8.GetBytes(text)));

    /// <summary>The sums of the pieces of one file.</summary>
    /// <param name="salt">Random bytes that stand in the file.</param>
    public PieceSums ForFile(ReadOnlySpan<byte> salt) => new(HMACSHA256.HashData(_key, salt));
}
