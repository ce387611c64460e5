namespace DrumPrint.Fuzz.Mutating;

/// <summary>Makes new inputs out of those there are, by a seed alone.</summary>
/// <param name="random">Where chance comes from.</param>
/// <param name="words">Words of the format; none for bytes.</param>
/// <param name="mostBytes">Longest input that is made.</param>
/// <param name="isText">Whether inputs are changed by words as well as by bytes.</param>
internal sealed class Mutator(FuzzRandom random, IReadOnlyList<byte[]> words, int mostBytes, bool isText)
{
    private const int MostSteps = 6;

    private readonly ByteEdits _bytes = new(random);
    private readonly WordEdits _words = new(random, words);

    /// <summary>A changed copy.</summary>
    /// <param name="input">What is changed.</param>
    /// <param name="other">Another input of the same kind, to take pieces from.</param>
    public byte[] Next(byte[] input, byte[] other)
    {
        for (var steps = 1 + random.Below(random.Below(2) * MostSteps); steps > 0; steps--)
        {
            input = Step(input, other);
            if (input.Length > mostBytes)
            {
                input = input[..mostBytes];
            }
        }

        return input;
    }

    private byte[] Step(byte[] input, byte[] other) => isText && random.Below(8) > 0 ? _words.Step(input, other) : _bytes.Step(input, other);
}
