using DrumPrint.Dsp;

namespace DrumPrint.Rendering;

/// <summary>Proves that the playing prints, as written, add up to the rough, as written.</summary>
/// <param name="prints">Playing prints at unity, centred mono by the session's pan law.</param>
/// <param name="rough">The rough.</param>
internal sealed class NullNode(IReadOnlyList<Feeding> prints, Feeding rough) : Node
{
    public override IEnumerable<Node> Inputs => [.. prints.Select(p => p.Source), rough.Source];

    /// <summary>Largest difference.</summary>
    public double Peak { get; private set; }

    public override void Prepare(int blockFrames)
    {
        base.Prepare(blockFrames);
        foreach (var print in prints)
        {
            print.Prepare(blockFrames);
        }

        rough.Prepare(blockFrames);
    }

    public override void Process(long block)
    {
        var sum = Output(block);
        for (var channel = 0; channel < sum.Channels; channel++)
        {
            sum[channel].Clear();
        }

        foreach (var print in prints)
        {
            print.AddInto(block, 0, sum);
        }

        var target = rough.Next(block);
        for (var channel = 0; channel < sum.Channels; channel++)
        {
            Peak = LargestDifference(sum[channel], target[channel], Peak);
        }
    }

    private static double LargestDifference(ReadOnlySpan<double> a, ReadOnlySpan<double> b, double floor)
    {
        for (var n = 0; n < a.Length; n++)
        {
            floor = Math.Max(floor, Math.Abs(a[n] - b[n]));
        }

        return floor;
    }
}
