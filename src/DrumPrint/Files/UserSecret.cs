using System.Security.Cryptography;

namespace DrumPrint.Files;

/// <summary>Random bytes that only this user has, in a file beside their settings: what they vouch for, nobody else can write.</summary>
internal static class UserSecret
{
    private const int Bytes = 32;
    private const long MostBytes = 1024;

    /// <summary>Where it lies; null for a user who has no folder for settings.</summary>
    public static string? DefaultPath => UserSettings.Folder is { } folder ? Path.Combine(folder, "store.key") : null;

    /// <summary>Reads it, and makes it when there is none.</summary>
    /// <param name="path">The file.</param>
    /// <param name="steps">Writes it.</param>
    /// <exception cref="IrregularFileException">It holds something else.</exception>
    /// <exception cref="IOException">It cannot be read or made.</exception>
    /// <exception cref="UnauthorizedAccessException">It may not be read or made.</exception>
    public static byte[] ReadOrMake(string path, FileSteps steps)
    {
        if (!Path.Exists(path))
        {
            steps.MakeFolder(Path.GetDirectoryName(path)!);
            Make(path, steps);
        }

        return Parse(RegularFile.ReadAll(path, MostBytes)) ?? throw new IrregularFileException($"{path} holds something else than DrumPrint wrote there; delete it, and a new one is made");
    }

    // Another run may be as quick: the file that is there first stays.
    private static void Make(string path, FileSteps steps)
    {
        try
        {
            StagedFile.Write(path, Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(Bytes)) + "\n", replaces: false, isPrivate: true, steps);
        }
        catch (IOException) when (File.Exists(path))
        {
            // Theirs is as good.
        }
    }

    private static byte[]? Parse(byte[] text)
    {
        try
        {
            var secret = Convert.FromHexString(System.Text.Encoding.ASCII.GetString(text).Trim());
            return secret.Length == Bytes ? secret : null;
        }
        catch (FormatException)
        {
            return null;
        }
    }
}
