using DrumPrint.Chains;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Rendering;

/// <summary>A click on every beat of a tempo map, higher on the first of each bar.</summary>
internal sealed class ClickNode : Node
{
    private const double ClickSeconds = 0.03;
    private readonly List<(long Frame, bool IsFirst)> _beats = [];
    private readonly double[] _first;
    private readonly double[] _other;
    private int _nextBeat;

    public ClickNode(TempoMap tempo, double peakDb, int sampleRate)
    {
        for (var bar = tempo.FirstBar; bar <= tempo.LastBar; bar++)
        {
            var stretch = tempo.StretchAt(bar);
            for (var beat = 0; beat < stretch.Beats; beat++)
            {
                var seconds = tempo.SecondsAtBar(bar) + (beat * stretch.SecondsPerBeat);
                _beats.Add(((long)Math.Round(seconds * sampleRate), beat == 0));
            }
        }

        _first = Burst(2000, Decibels.ToGain(peakDb), sampleRate);
        _other = Burst(1333, Decibels.ToGain(peakDb - 4), sampleRate);
    }

    public override IEnumerable<Node> Inputs => [];

    /// <summary>Song frame up to which its largest magnitude has been heard: the first click of a bar is as loud as any.</summary>
    public long LoudestTo => _beats.Where(b => b.IsFirst && b.Frame >= 0).Select(b => b.Frame + _first.Length).DefaultIfEmpty().First();

    public override void Process(long block)
    {
        var output = Output(block)[0];
        output.Clear();
        var start = block * BlockFrames;
        while (_nextBeat < _beats.Count && _beats[_nextBeat].Frame + _first.Length <= start)
        {
            _nextBeat++;
        }

        for (var i = _nextBeat; i < _beats.Count && _beats[i].Frame < start + output.Length; i++)
        {
            var sound = _beats[i].IsFirst ? _first : _other;
            var from = Math.Max(0, start - _beats[i].Frame);
            var at = (int)(_beats[i].Frame + from - start);
            var length = (int)Math.Min(sound.Length - from, output.Length - at);
            sound.AsSpan((int)from, length).CopyTo(output[at..]);
        }
    }

    // A sine that dies away, scaled so that its largest sample is the asked-for peak.
    private static double[] Burst(double freqHz, double peak, int sampleRate)
    {
        var sound = new double[(int)(ClickSeconds * sampleRate)];
        var largest = 0.0;
        for (var n = 0; n < sound.Length; n++)
        {
            var t = (double)n / sampleRate;
            sound[n] = Elementary.Sin(2 * Math.PI * freqHz * t) * Elementary.Exp(-t / 0.006) * (1 - (t / ClickSeconds));
            largest = Math.Max(largest, Math.Abs(sound[n]));
        }

        for (var n = 0; n < sound.Length; n++)
        {
            sound[n] *= peak / largest;
        }

        return sound;
    }
}
