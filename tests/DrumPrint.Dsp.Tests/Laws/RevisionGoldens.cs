using System.Runtime.InteropServices;
using System.Security.Cryptography;
using System.Text;
using DrumPrint.Dsp.Processors;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Laws;

/// <summary>A sound keeps its bits under its revision. These are hashes of every revision of every processor, mono and stereo,
/// with and without a key. All settings stand at their defaults, minima and maxima.</summary>
public sealed class RevisionGoldens
{
    private const string FileName = "Revisions.sha256";

    /// <summary>Set to 1 to write the hashes anew after adding a revision; no other line may change once 1.0 is tagged.</summary>
    private const string Switch = "DRUMPRINT_REWRITE_GOLDENS";

    private const int Frames = 24000;

    private static readonly double[][] Input = [Signals.Hits(Frames, every: 7000, decayFrames: 1500, seed: 11, level: 0.5), Signals.Hits(Frames, every: 6000, decayFrames: 2500, seed: 12, level: 0.3)];

    [Fact]
    public void Every_revision_of_every_processor_gives_the_same_samples_on_every_machine()
    {
        var expected = File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Laws", FileName)).ReplaceLineEndings("\n");

        var text = new StringBuilder();
        foreach (var definition in Catalogue.All)
        {
            foreach (var law in LawCase.All(definition, randomCount: 0))
            {
                text.Append(Hash(law.Run(Input))).Append("  revision ").Append(definition.Revision).Append(" of ").Append(law.Name).Append('\n');
            }
        }

        Rewrite(text.ToString());
        Assert.Equal(expected, text.ToString());
    }

    private static string Hash(double[][] channels)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var channel in channels)
        {
            hash.AppendData(MemoryMarshal.AsBytes<double>(channel));
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset())[..32];
    }

    private static void Rewrite(string text)
    {
        if (Environment.GetEnvironmentVariable(Switch) == "1")
        {
            File.WriteAllText(Repository.File("tests", "DrumPrint.Dsp.Tests", "Laws", FileName), text);
        }
    }
}
