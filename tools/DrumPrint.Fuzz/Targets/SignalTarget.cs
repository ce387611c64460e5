using DrumPrint.Dsp;
using DrumPrint.Store;

namespace DrumPrint.Fuzz.Targets;

/// <summary>A kept signal: once as it is, and once with all its sums put right.</summary>
internal sealed class SignalTarget : FuzzTarget
{
    private const int BlockFrames = 1024;

    private readonly ScratchFolder _folder = new();
    private readonly ScratchFile _file;
    private readonly StoreSums _sums = StoreSecret.Sums();
    private readonly double[][] _channels = [new double[BlockFrames], new double[BlockFrames]];

    public SignalTarget() => _file = new ScratchFile(_folder.File("fuzz.signal"));

    public override string Name => "signal";

    public override bool IsText => false;

    public override long BytesPerByte => 256;

    protected override bool IsRefusal(Exception e) => e is DamagedSignalException;

    protected override bool Read(byte[] input)
    {
        _file.Put(input);
        try
        {
            ReadFile();
        }
        catch (DamagedSignalException)
        {
            // So are nearly all of them; the next try is with the sums put right.
        }

        _file.Put(SignalSums.PutRight(input, _sums));
        ReadFile();
        return true;
    }

    protected override void Dispose(bool disposing)
    {
        _file.Dispose();
        _folder.Dispose();
        base.Dispose(disposing);
    }

    private void ReadFile()
    {
        using (var reader = SignalReader.Open(_file.Path, _sums))
        {
            reader.CheckAll();
        }

        using var signal = SignalReader.Open(_file.Path, _sums);
        foreach (var trace in signal.Traces.Values.SelectMany(t => t))
        {
            trace.Until(signal.Header.Frames - signal.Header.Latency);
        }

        var block = new AudioBlock(_channels, 0, BlockFrames).FirstChannels(signal.Header.Channels);
        for (var frame = 0L; frame < signal.Header.Frames; frame += BlockFrames)
        {
            signal.Read(block);
        }

        signal.Read(block);
        Require(!block[0].ContainsAnyExcept(0.0), "behind its end a signal is silent");
    }
}
