using DrumPrint.Chains;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Processors;
using DrumPrint.Planning;
using DrumPrint.Rendering;
using DrumPrint.Store;

namespace DrumPrint.Live;

/// <summary>Watches a processor while a song is rendered, and says what it did.</summary>
internal sealed class StageWatch
{
    private const double PeakWithinS = 0.02;

    private readonly PlannedStage _stage;
    private readonly int _rateHz;
    private readonly long _frames;
    private readonly Node _input;
    private readonly LatePowers? _before;
    private readonly LatePowers? _after;
    private readonly LatePeaks? _peaks;

    /// <param name="stage">The processor; one without a curve of its gain has nothing to tell.</param>
    /// <param name="rateHz">Frames in a second.</param>
    /// <param name="frames">Length of the song.</param>
    public StageWatch(PlannedStage stage, int rateHz, long frames)
    {
        (_stage, _rateHz, _frames) = (stage, rateHz, frames);
        _input = stage.Node.Inputs.First();
        if (IsGate)
        {
            _before = new LatePowers(rateHz, frames, _input.Latency);
            _after = new LatePowers(rateHz, frames, stage.Node.Latency);
            _peaks = new LatePeaks(rateHz, frames, _input.Latency);
        }
    }

    /// <summary>Whether it opens and closes.</summary>
    public bool IsGate => _stage.Stage.Definition == Gate.Definition && _stage.Stage.Settings[Gate.Action] == "gate";

    public string Bus => _stage.Bus;

    /// <summary>Takes in a block that every node has made.</summary>
    public void See(long block)
    {
        if (_before is null)
        {
            return;
        }

        _before.Add(_input.Output(block));
        _peaks!.Add(_input.Output(block));
        _after!.Add(_stage.Node.Output(block));
    }

    /// <summary>What it did, the song over.</summary>
    /// <param name="columns">Into how many parts the song is cut.</param>
    public IEnumerable<StageLine> Lines(int columns) => _stage.Traces.Select(trace =>
    {
        var gains = Gains(trace);
        var lowest = new float[columns];
        var most = 0;
        for (var c = 0; c < columns; c++)
        {
            var first = (int)(c * (long)gains.Length / columns);
            var end = Math.Max(first + 1, (int)((c + 1) * (long)gains.Length / columns));
            lowest[c] = 1;
            for (var w = first; w < end && w < gains.Length; w++)
            {
                lowest[c] = Math.Min(lowest[c], gains[w]);
                most = gains[w] < gains[most] ? w : most;
            }
        }

        var mostDb = gains.Length == 0 ? 0 : Math.Max(0, -Decibels.FromGain(Math.Max(1e-6, gains[most])));
        return new StageLine(_stage.Bus, trace.Processor, lowest, mostDb, mostDb > 0 ? Seconds(trace, most) : 0);
    });

    /// <summary>When a gate was open.</summary>
    public IReadOnlyList<(double FromS, double ToS)> Open()
    {
        var trace = _stage.Traces[0];
        var gains = Gains(trace);

        // Between closed and open, where those lie near each other.
        var bound = Math.Max(0.5, Math.Sqrt(Decibels.ToGain(_stage.Stage.Settings[Gate.Range])));
        List<(double, double)> open = [];
        for (var w = 0; w < gains.Length; w++)
        {
            var first = w;
            while (w < gains.Length && gains[w] >= bound)
            {
                w++;
            }

            if (w > first)
            {
                open.Add((Seconds(trace, first), Math.Min((double)_frames / _rateHz, Seconds(trace, w))));
            }
        }

        return open;
    }

    /// <summary>The record that the rules of a check read.</summary>
    public GateRecord Record(Chain chain)
    {
        var bus = chain.Buses.First(b => b.Name == _stage.Bus);
        return new GateRecord(bus, _stage.Stage, _before!.Read(), _after!.Read(), Gains(_stage.Traces[0]), [.. GateLedger.Tracks(chain, bus)]);
    }

    /// <summary>The highest sample of a hit before the gate, in dBFS.</summary>
    public double PeakDb(double atS) => Decibels.FromGain(Math.Max(1e-6, _peaks!.Highest(atS, atS + PeakWithinS)));

    private double Seconds(GainTrace trace, int window) => (double)window * trace.WindowFrames / _rateHz;

    // From the start of the song to its end.
    private float[] Gains(GainTrace trace)
    {
        var gains = trace.LowestGain;
        var late = (int)Math.Min(gains.Length, (trace.CurveLate + (trace.WindowFrames / 2)) / trace.WindowFrames);
        return gains[late..(int)Math.Min(gains.Length, late + ((_frames + trace.WindowFrames - 1) / trace.WindowFrames))].ToArray();
    }
}
