using DrumPrint.Dsp.Mixing;

namespace DrumPrint.Rendering;

/// <summary>Proves that the playing prints, as written, add up to the rough, as written.</summary>
/// <param name="prints">Playing prints at unity, centred mono by the session's pan law.</param>
/// <param name="rough">The rough, as late as the prints.</param>
/// <param name="stretch">What part of song time is written.</param>
/// <param name="sampleRate">Hertz.</param>
internal sealed class NullNode(IReadOnlyList<Feeding> prints, Node rough, WrittenStretch stretch, int sampleRate) : Node
{
    private readonly TailPeaks _peaks = new(stretch, sampleRate);

    public override IEnumerable<Node> Inputs => [.. prints.Select(p => p.Source), rough];

    /// <summary>Largest difference up to the end of the files.</summary>
    public double PeakBefore(long frame) => _peaks.PeakBefore(frame);

    public override void Prepare(int blockFrames)
    {
        base.Prepare(blockFrames);
        foreach (var print in prints)
        {
            print.Prepare(blockFrames);
        }
    }

    public override void Process(long block)
    {
        var sum = Output(block);
        MixNode.Sum(prints, block, 0, sum);
        var target = rough.Output(block);
        for (var channel = 0; channel < sum.Channels; channel++)
        {
            Blend.Add(target[channel], -1, sum[channel]);
        }

        var first = (block * BlockFrames) - Latency;
        var start = (int)Math.Clamp(stretch.From - first, 0, sum.Frames);
        var end = (int)Math.Clamp(stretch.To - first, start, sum.Frames);
        _peaks.Add(first + start, sum.Slice(start, end - start));
    }
}
