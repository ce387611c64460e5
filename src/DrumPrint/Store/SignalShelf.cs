using DrumPrint.Chains;

namespace DrumPrint.Store;

/// <summary>The store as one run's graph sees it: signals to take, and signals to keep.</summary>
/// <param name="store">The store.</param>
/// <param name="keys">Names of the session's signals.</param>
/// <param name="keeps">Whether new signals are kept.</param>
internal sealed class SignalShelf(PrintStore store, SoundKeys keys, bool keeps)
{
    private readonly HashSet<string> _left = new(StringComparer.Ordinal);
    private readonly Dictionary<string, long> _claimed = new(StringComparer.Ordinal);
    private long _begunBytes;

    /// <summary>What the sound of a bus goes by, whatever the bus is called.</summary>
    public string KeyOf(string bus) => keys.Of(bus);

    /// <summary>Opens the kept signal of a bus; null when there is none.</summary>
    public SignalReader? Bus(string name) => Find(keys.Of(name));

    /// <summary>Opens the kept rough; null when there is none.</summary>
    public SignalReader? Rough(double trimDb) => Find(keys.Rough(trimDb));

    /// <summary>Leaves a kept signal aside for the rest of the run.</summary>
    public void Leave(string key) => _left.Add(key);

    /// <summary>Begins to keep the signal of a bus; null when that is not wanted or cannot be.</summary>
    /// <param name="name">The bus.</param>
    /// <param name="channels">1 or 2.</param>
    /// <param name="frames">Length.</param>
    /// <param name="latency">Frames by which it lags song time.</param>
    /// <param name="end">Song frame after which it is silent.</param>
    /// <param name="traces">What its processors and those of the buses that feed it do to the gain, by bus.</param>
    public SignalWriter? KeepBus(string name, int channels, long frames, long latency, long end, IReadOnlyDictionary<string, IReadOnlyList<GainTrace>> traces) =>
        Begin(new SignalHeader(keys.Of(name), name, channels, frames, latency, end), traces.DistinctBy(t => KeyOf(t.Key)).ToDictionary(t => KeyOf(t.Key), t => t.Value, StringComparer.Ordinal));

    /// <summary>Begins to keep the rough.</summary>
    public SignalWriter? KeepRough(double trimDb, long frames, long latency, long end) =>
        Begin(new SignalHeader(keys.Rough(trimDb), "rough", 2, frames, latency, end), new Dictionary<string, IReadOnlyList<GainTrace>>());

    public void Commit(IEnumerable<SignalWriter> writers)
    {
        store.Commit(writers);
        _begunBytes = 0;
    }

    /// <summary>Whether the signal of a bus is worth keeping. A sum, an equaliser or a compressor is as quickly computed again as
    /// read.</summary>
    public static bool IsCostly(Bus bus) => bus.Stages.Any(s => s.Definition.IsCostly);

    private SignalReader? Find(string key)
    {
        if (_left.Contains(key) || store.FindSignal(key) is not { } reader)
        {
            return null;
        }

        _claimed[key] = SignalLayout.BodyBytes(reader.Header.Channels, reader.Header.Frames);
        return reader;
    }

    private SignalWriter? Begin(SignalHeader header, IReadOnlyDictionary<string, IReadOnlyList<GainTrace>> traces)
    {
        if (!keeps)
        {
            return null;
        }

        _claimed.Remove(header.Key);
        var writer = store.Begin(header, traces, _claimed.Values.Sum(), _begunBytes);
        if (writer is not null)
        {
            _claimed[header.Key] = SignalLayout.BodyBytes(header.Channels, header.Frames);
            _begunBytes += _claimed[header.Key];
        }

        return writer;
    }
}
