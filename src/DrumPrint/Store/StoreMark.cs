using System.Security.Cryptography;
using System.Text;
using DrumPrint.Files;

namespace DrumPrint.Store;

/// <summary>The file by which a store is known: only the user who made the store can have written it.</summary>
/// <remarks>Three lines: what it is, the store's name (random), and an HMAC-SHA-256 of both under the user's secret.</remarks>
internal static class StoreMark
{
    /// <summary>Its name in the store.</summary>
    public const string FileName = "store.mark";

    private const string What = "drumprint store 2";
    private const int NameBytes = 16;
    private const long MostBytes = 1024;

    /// <summary>What a store's entries are summed with; null when the folder bears no mark of this user.</summary>
    /// <exception cref="IOException">The mark cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">The mark may not be read.</exception>
    public static StoreSums? Read(string folder, byte[] secret)
    {
        var path = Path.Combine(folder, FileName);
        if (!File.Exists(path) || StoreLinks.IsLink(path))
        {
            return null;
        }

        var lines = Encoding.UTF8.GetString(RegularFile.ReadAll(path, MostBytes)).Split('\n');
        return lines is [What, { Length: > 0 } name, var sum, ..] && CryptographicOperations.FixedTimeEquals(Encoding.UTF8.GetBytes(sum), Encoding.UTF8.GetBytes(Sum(name, secret)))
            ? new StoreSums(secret, name)
            : null;
    }

    /// <summary>Marks a folder. A mark that another run of this user has set meanwhile stays.</summary>
    public static void Write(string folder, byte[] secret, FileSteps steps)
    {
        var name = RandomNumberGenerator.GetHexString(2 * NameBytes, lowercase: true);
        try
        {
            StagedFile.Write(Path.Combine(folder, FileName), $"{What}\n{name}\n{Sum(name, secret)}\n", replaces: false, steps: steps);
        }
        catch (IOException) when (File.Exists(Path.Combine(folder, FileName)))
        {
            // Whoever reads it finds out whether it is ours.
        }
    }

    private static string Sum(string name, byte[] secret) => Convert.ToHexStringLower(HMACSHA256.HashData(secret, Encoding.UTF8.GetBytes($"{What}\n{name}")));
}
