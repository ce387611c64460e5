using DrumPrint.Fuzz.Targets;

namespace DrumPrint.Fuzz.Driver;

/// <summary>Inputs that showed a fault, one for each kind of fault, made as short as quick tries can.</summary>
internal sealed class Findings(FuzzTarget target, string folder)
{
    private const int MostTries = 4000;

    private readonly Dictionary<string, int> _known = new(StringComparer.Ordinal);

    public int Kinds => _known.Count;

    public void Add(byte[] input, Exception e)
    {
        var fault = Fault.Of(e);
        if (!_known.TryAdd(fault.Signature, 1))
        {
            _known[fault.Signature]++;
            return;
        }

        Keep(Shortened(input, fault.Signature), fault);
    }

    /// <summary>Keeps an input that no shorter one can be made of: it ends the process.</summary>
    public void Keep(byte[] input, Fault fault)
    {
        Directory.CreateDirectory(folder);
        var path = Path.Combine(folder, fault.FileName + "-" + Corpus.Hash(input)[..8]);
        File.WriteAllBytes(path, input);
        File.WriteAllText(path + ".txt", fault.Text);
        Console.WriteLine($"{target.Name}: FOUND {fault.Signature}: {path}");
    }

    // Pieces are taken out, large ones first, as long as the same fault is seen.
    private byte[] Shortened(byte[] input, string signature)
    {
        var tries = 0;
        for (var piece = Math.Max(1, input.Length / 2); piece > 0; piece /= 2)
        {
            for (var at = 0; at < input.Length && tries < MostTries; tries++)
            {
                byte[] shorter = [.. input.AsSpan(0, at), .. input.AsSpan(Math.Min(input.Length, at + piece))];
                if (Shows(shorter, signature))
                {
                    input = shorter;
                }
                else
                {
                    at += piece;
                }
            }
        }

        return input;
    }

    private bool Shows(byte[] input, string signature)
    {
        try
        {
            target.Run(input);
            return false;
        }
#pragma warning disable CA1031 // Every exception that comes out is a fault.
        catch (Exception e)
#pragma warning restore CA1031
        {
            return Fault.Of(e).Signature == signature;
        }
    }
}
