using DrumPrint.Dsp;
using DrumPrint.Dsp.Mixing;
using DrumPrint.Rendering;

namespace DrumPrint.Live;

/// <summary>Sums the prints at their faders, and tells how loud each is before its fader.</summary>
/// <param name="prints">Numbers, whether they are extras, and signals, lined up.</param>
/// <param name="strips">The faders.</param>
/// <param name="panLawDb">Level of a centred mono print on each side.</param>
internal sealed class MonitorNode(IReadOnlyList<(int Number, bool IsOptional, Node Node)> prints, Strips strips, double panLawDb) : Node
{
    private readonly double[] _gains = [.. prints.Select(p => strips.Of(p.Number, p.IsOptional))];
    private readonly (double Left, double Right) _centre = PanLaw.Mono(0, panLawDb);
    private double[] _moving = [];

    public override IEnumerable<Node> Inputs => prints.Select(p => p.Node);

    /// <summary>Largest magnitude of each print in the last block.</summary>
    public float[] Peaks { get; } = new float[prints.Count];

    public override void Prepare(int blockFrames)
    {
        base.Prepare(blockFrames);
        _moving = new double[blockFrames];
    }

    public override void Process(long block)
    {
        var sum = Output(block);
        sum[0].Clear();
        sum[1].Clear();
        for (var p = 0; p < prints.Count; p++)
        {
            var print = prints[p].Node.Output(block);
            var wanted = strips.Of(prints[p].Number, prints[p].IsOptional);
            var peak = 0.0;
            for (var channel = 0; channel < print.Channels; channel++)
            {
                foreach (var sample in print[channel])
                {
                    peak = Math.Max(peak, Math.Abs(sample));
                }
            }

            Peaks[p] = (float)peak;
            if (wanted == 0 && _gains[p] == 0)
            {
                continue;
            }

            Add(print, 0, _gains[p], wanted, print.Channels == 1 ? _centre.Left : 1, sum[0]);
            Add(print, print.Channels - 1, _gains[p], wanted, print.Channels == 1 ? _centre.Right : 1, sum[1]);
            _gains[p] = wanted;
        }
    }

    private void Add(AudioBlock print, int channel, double from, double to, double level, Span<double> sum)
    {
        if (from == to)
        {
            Blend.Add(print[channel], to * level, sum);
            return;
        }

        for (var n = 0; n < _moving.Length; n++)
        {
            _moving[n] = level * (from + ((to - from) * (n + 1) / _moving.Length));
        }

        Blend.Add(print[channel], _moving, sum);
    }
}
