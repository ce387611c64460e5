using DrumPrint.Chains;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Session;
using DrumPrint.Store;

namespace DrumPrint.Seeking;

/// <summary>Numbers that were found before, by all that they come from.</summary>
/// <param name="store">Where they are kept.</param>
/// <param name="inputs">The chain's files.</param>
/// <param name="trackHashes">Hash of the samples of each raw track that is heard, by name.</param>
internal sealed class SeekMemory(PrintStore store, SessionInputs inputs, IReadOnlyDictionary<string, string> trackHashes)
{
    // A bus of the chain may be called anything but this.
    private const string Name = "·sought";

    /// <summary>What was found; null when nothing was.</summary>
    /// <param name="chain">The chain, settled as far as the bus.</param>
    /// <param name="bus">The bus up to the processor whose number is sought.</param>
    /// <param name="parameter">The number.</param>
    public FoundNumber? Find(Chain chain, Bus bus, NumberParameter parameter) => store.FindNumber(Key(chain, bus, parameter));

    /// <summary>Takes down what was found.</summary>
    /// <param name="chain">The chain, settled as far as the bus.</param>
    /// <param name="bus">The bus up to the processor whose number was sought.</param>
    /// <param name="parameter">The number.</param>
    /// <param name="found">What was found.</param>
    public void Save(Chain chain, Bus bus, NumberParameter parameter, FoundNumber found) => store.SaveNumber(Key(chain, bus, parameter), found);

    private string Key(Chain chain, Bus bus, NumberParameter parameter) =>
        new SoundKeys(chain with { Buses = [.. chain.Buses, bus with { Name = Name }] }, inputs, trackHashes).OfNumber(Name, parameter.Key, SeekGraph.FramesOf(chain, inputs));
}
