using System.Text;

namespace DrumPrint.Fuzz.Seeds;

/// <summary>Writes the project's examples: for each target a folder of small inputs, <c>good-…</c> ones that are accepted and <c>bad-…</c> ones
/// that are refused. Found cases, which lie beside them, are left alone.</summary>
internal static class SeedWriter
{
    public static int Write(string folder)
    {
        foreach (var (target, name, bytes) in SoundSeeds.All().Concat(TextSeeds.All()).Concat(SessionSeeds.All()))
        {
            var place = Directory.CreateDirectory(Path.Combine(folder, target)).FullName;
            File.WriteAllBytes(Path.Combine(place, name), bytes);
        }

        return 0;
    }

    public static Seed Text(string target, string name, string text) => new(target, name, Encoding.UTF8.GetBytes(text.ReplaceLineEndings("\n")));
}

/// <summary>An example.</summary>
/// <param name="Target">Whose.</param>
/// <param name="Name">Its file name.</param>
/// <param name="Bytes">What it holds.</param>
internal sealed record Seed(string Target, string Name, byte[] Bytes);
