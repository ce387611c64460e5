using System.Security.Cryptography;
using DrumPrint.Fuzz.Mutating;

namespace DrumPrint.Fuzz.Driver;

/// <summary>Inputs that led somewhere new: the examples of the project, and what earlier runs found.</summary>
internal sealed class Corpus
{
    private readonly List<byte[]> _inputs = [];
    private readonly List<byte[]> _accepted = [];
    private readonly string _folder;

    /// <param name="seeds">The project's examples.</param>
    /// <param name="folder">Where this and later runs keep theirs.</param>
    /// <param name="mostBytes">Longest input.</param>
    public Corpus(string seeds, string folder, int mostBytes)
    {
        _folder = Directory.CreateDirectory(folder).FullName;
        foreach (var file in Files(seeds).Concat(Files(folder)))
        {
            var bytes = File.ReadAllBytes(file);
            if (bytes.Length <= mostBytes)
            {
                _inputs.Add(bytes);
            }
        }

        if (_inputs.Count == 0)
        {
            _inputs.Add([]);
        }
    }

    public IReadOnlyList<byte[]> Inputs => _inputs;

    /// <summary>Words of the format: every text that stands in an example.</summary>
    public IReadOnlyList<byte[]> Words(int longest = 40) =>
        [.. _inputs.SelectMany(i => WordEdits.Words(i).Select(w => i[w])).Where(w => w.Length > 1 && w.Length <= longest).DistinctBy(Convert.ToHexString)];

    public void Add(byte[] input)
    {
        _inputs.Add(input);
        File.WriteAllBytes(Path.Combine(_folder, Hash(input)), input);
    }

    /// <summary>Takes down that a reader accepted an input.</summary>
    public void Accepted(byte[] input) => _accepted.Add(input);

    /// <summary>One to begin with: half of them are accepted ones, for what is refused is seldom read to its end. The newest are taken more
    /// often, and so are short ones.</summary>
    public byte[] Choose(FuzzRandom random)
    {
        var among = _accepted.Count > 0 && random.Below(2) == 0 ? _accepted : _inputs;
        var one = random.Below(3) == 0 ? among[^(1 + random.Below(Math.Min(among.Count, 64)))] : random.Of(among);
        var other = random.Of(among);
        return one.Length <= 4096 || random.Below(4) == 0 ? one : other;
    }

    public static string Hash(byte[] input) => Convert.ToHexStringLower(SHA256.HashData(input))[..16];

    private static IEnumerable<string> Files(string folder) => Directory.Exists(folder) ? Directory.GetFiles(folder).Order(StringComparer.Ordinal) : [];
}
