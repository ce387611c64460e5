using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Saturation;

namespace DrumPrint.Dsp.Crossovers;

/// <summary>Bands without latency, each turned as far as all the others.</summary>
/// <remarks>
/// Each crossover takes its band off what the ones below have left. The bands below then go through the all-pass that its two sides are
/// together, so that all of them still add up: J. A. D'Appolito, "Active Realization of Multiway All-Pass Crossover Systems", 76th AES
/// Convention, 1984 (from memory).
/// </remarks>
internal sealed class SteepSplit : IBandSplit
{
    private readonly ChannelCascade[] _below;
    private readonly ChannelCascade[] _above;
    private readonly ChannelCascade[][] _turns;

    /// <param name="freqsHz">Where the bands meet, the lowest first.</param>
    /// <param name="slopeDbPerOct">24 or 48.</param>
    /// <param name="format">The signal.</param>
    public SteepSplit(double[] freqsHz, int slopeDbPerOct, AudioFormat format)
    {
        ChannelCascade Of(BiquadCoefficients[] sections) => new(sections, format.Channels);
        _below = [.. freqsHz.Select(f => Of(CrossoverDesign.Below(f, slopeDbPerOct, format.SampleRate)))];
        _above = [.. freqsHz.Select(f => Of(CrossoverDesign.Above(f, slopeDbPerOct, format.SampleRate)))];
        _turns = [.. freqsHz.Select((f, i) => Enumerable.Range(0, i).Select(_ => Of(CrossoverDesign.Both(f, slopeDbPerOct, format.SampleRate))).ToArray())];
        TailFrames = _below.Sum(b => b.TailFrames);
    }

    public int LatencyFrames => 0;

    public long TailFrames { get; }

    public double PreRingMs => 0;

    public void Split(AudioBlock input, double[][][] bands)
    {
        var rest = new AudioBlock(bands[^1], 0, input.Frames);
        Copy(input, rest);
        for (var i = 0; i < _below.Length; i++)
        {
            var band = new AudioBlock(bands[i], 0, input.Frames);
            Copy(rest, band);
            _below[i].Process(band);
            _above[i].Process(rest);
            for (var lower = 0; lower < i; lower++)
            {
                _turns[i][lower].Process(new AudioBlock(bands[lower], 0, input.Frames));
            }
        }
    }

    private static void Copy(AudioBlock from, AudioBlock to)
    {
        for (var channel = 0; channel < from.Channels; channel++)
        {
            from[channel].CopyTo(to[channel]);
        }
    }
}
