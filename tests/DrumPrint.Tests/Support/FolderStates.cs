using System.Security.Cryptography;
using DrumPrint.Files;

namespace DrumPrint.Tests.Support;

/// <summary>What lay in folders when a run went wrong. From the same files the same command does the same, so it need not be tried twice.</summary>
/// <remarks>The same are names and bytes; of a temporary name counts only that it is one.</remarks>
internal sealed class FolderStates
{
    private readonly HashSet<string> _seen = new(StringComparer.Ordinal);

    /// <summary>Whether folders were never found like this.</summary>
    public bool IsNew(params IEnumerable<string> folders) => _seen.Add(string.Join('\n', folders.SelectMany(Entries)));

    private static IEnumerable<string> Entries(string folder) => !Directory.Exists(folder)
        ? ["no folder"]
        : Directory.GetFileSystemEntries(folder, "*", SearchOption.AllDirectories).Select(e => $"{Name(Path.GetRelativePath(folder, e))} {Content(e)}").Order(StringComparer.Ordinal).Prepend("a folder");

    private static string Name(string path) => string.Join('/', path.Split('/', '\\').Select(p => TemporaryName.Is(p) ? "temporary" : p));

    private static string Content(string path) => Directory.Exists(path) ? "folder" : Convert.ToHexString(SHA256.HashData(File.ReadAllBytes(path)));
}
