using System.Runtime.CompilerServices;
using System.Security.Cryptography;

namespace DrumPrint.Store;

/// <summary>What tells one build of the engine from another.</summary>
/// <remarks>A build may sound otherwise under the same version while it is being worked on; nothing kept by one is used by
/// another.</remarks>
internal static class SoundVersion
{
    private static readonly string[] Files = ["DrumPrint.Dsp.dll", "DrumPrint.Engine.dll"];

    /// <summary>Version, and hash of the program's files.</summary>
    public static string Text { get; } = Make();

    private static string Make()
    {
        var files = Files.Select(f => Path.Combine(AppContext.BaseDirectory, f)).Where(File.Exists).ToList();

        // Published as one file, the program itself is the build.
        if ((files.Count < Files.Length || !RuntimeFeature.IsDynamicCodeSupported) && Environment.ProcessPath is { } program)
        {
            files = [program];
        }

        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var file in files)
        {
            hash.AppendData(File.ReadAllBytes(file));
        }

        return $"{EngineVersion.Text} {Convert.ToHexStringLower(hash.GetHashAndReset())}";
    }
}
