using DrumPrint.Dsp;
using DrumPrint.Dsp.Mixing;
using DrumPrint.Session;

namespace DrumPrint.Rendering;

/// <summary>Reads one raw track, silence after its end.</summary>
/// <param name="source">The open recording at the session's rate.</param>
/// <param name="gain">Level and polarity of the track.</param>
/// <param name="delayFrames">Delay of the track.</param>
internal sealed class TrackNode(ITrackSource source, double gain, long delayFrames) : Node
{
    private DelayLine? _line;
    private double[][] _read = [];

    public override IEnumerable<Node> Inputs => [];

    public override long MemoryFrames => delayFrames;

    public override void StartAt(long block) => source.Start(block * BlockFrames);

    public override void Prepare(int blockFrames)
    {
        base.Prepare(blockFrames);
        _line = delayFrames > 0 ? new DelayLine(Channels, delayFrames) : null;
        _read = _line is null ? [] : [.. Enumerable.Range(0, Channels).Select(_ => new double[blockFrames])];
    }

    public override void Process(long block)
    {
        var output = Output(block);
        if (_line is null)
        {
            source.Read(output);
        }
        else
        {
            var read = new AudioBlock(_read, 0, BlockFrames);
            source.Read(read);
            _line.Move(read, output);
        }

        if (gain != 1)
        {
            for (var channel = 0; channel < output.Channels; channel++)
            {
                Blend.Copy(output[channel], gain, output[channel]);
            }
        }
    }
}
