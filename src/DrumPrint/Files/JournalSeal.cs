using System.Security.Cryptography;
using System.Text;

namespace DrumPrint.Files;

/// <summary>Tells a journal that this user's DrumPrint wrote from one that came by mail: by a sum that hangs on the user's secret.</summary>
/// <remarks>A user without a folder for settings has no secret. Then journals bear no sum, and only what they may name guards the folder.</remarks>
internal sealed class JournalSeal
{
    private readonly byte[]? _key;
    private readonly bool _isLost;

    private JournalSeal(byte[]? key, bool isLost = false) => (_key, _isLost) = (key, isLost);

    /// <summary>No seal: every sum holds.</summary>
    public static JournalSeal None { get; } = new(null);

    /// <summary>The seal of whoever runs the program. The secret is made when there is none; where it cannot be read, no journal holds.</summary>
    /// <param name="steps">Makes it.</param>
    public static JournalSeal OfUser(FileSteps steps)
    {
        try
        {
            return UserSecret.DefaultPath is { } path ? Of(UserSecret.ReadOrMake(path, steps)) : None;
        }
        catch (Exception e) when (FileErrors.Are(e))
        {
            return new JournalSeal(null, isLost: true);
        }
    }

    /// <summary>The seal by a secret.</summary>
    public static JournalSeal Of(ReadOnlySpan<byte> secret) => new(HMACSHA256.HashData(secret, "drumprint journals"u8));

    /// <summary>The sum of a journal's text: HMAC-SHA-256 in hexadecimal; null without a secret.</summary>
    public string? SumOf(string text) => _key is null ? null : Convert.ToHexStringLower(HMACSHA256.HashData(_key, Encoding.UTF8.GetBytes(text)));

    /// <summary>Whether a sum is the one of a text.</summary>
    public bool Holds(string text, string? sum) => !_isLost && (SumOf(text) is not { } own
        || (sum is not null && CryptographicOperations.FixedTimeEquals(Encoding.ASCII.GetBytes(own), Encoding.UTF8.GetBytes(sum))));
}
