using DrumPrint.Audio;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Rendering;

/// <summary>Measures a signal, brings it to the word length and writes it; gives on the samples as written.</summary>
/// <param name="input">The signal.</param>
/// <param name="stretch">What part of song time is written.</param>
/// <param name="sampleRate">Hertz.</param>
/// <param name="round">Brings samples onto the file's grid.</param>
/// <param name="writer">The file; null to measure only.</param>
internal sealed class WriterNode(Node input, WrittenStretch stretch, int sampleRate, BlockRounding round, WaveWriter? writer) : Node
{
    // Few enough that a piece stays in the nearest cache through all its steps.
    private const int PieceFrames = 1024;

    private readonly TailPeaks _peaks = new(stretch, sampleRate);
    private LoudnessMeter? _loudness;
    private TruePeakMeter? _truePeak;
    private double[] _energies = [];

    public override IEnumerable<Node> Inputs => [input];

    public override Node? MayChange => input;

    /// <summary>Largest magnitude before rounding.</summary>
    public double Peak => _peaks.Peak;

    /// <summary>Song frame up to which its tail is measured.</summary>
    public long TailTo => stretch.TailTo;

    public LoudnessMeter Loudness => _loudness!;

    /// <summary>Highest level between samples; −∞ for silence.</summary>
    public double TruePeakDb => _truePeak!.PeakDb;

    /// <summary>Peak over the mean level of a file of so many frames, in dB; 0 for silence.</summary>
    public double CrestDb(long frames) =>
        _energies.Sum() is > 0 and var energy ? Decibels.FromGain(Peak) - Decibels.FromGain(Math.Sqrt(energy / frames / Channels)) : 0;

    public override void Prepare(int blockFrames)
    {
        base.Prepare(blockFrames);
        _loudness = new LoudnessMeter(new AudioFormat(sampleRate, Channels), stretch.To - stretch.From);
        _truePeak = new TruePeakMeter(new AudioFormat(sampleRate, Channels));
        _energies = new double[Channels];
    }

    public override void Process(long block)
    {
        var output = Output(block);
        var source = input.Output(block);
        for (var done = 0; done < output.Frames; done += PieceFrames)
        {
            var frames = Math.Min(PieceFrames, output.Frames - done);

            // Song time of the piece's first frame; what comes before 0 is latency and is dropped.
            Write((block * BlockFrames) + done - Latency, source.Slice(done, frames), output.Slice(done, frames));
        }
    }

    /// <summary>First frame of song time from which the signal stays below a part of its own peak.</summary>
    public long QuietFrom(double partOfPeak) => _peaks.QuietFrom(partOfPeak);

    private void Write(long first, AudioBlock source, AudioBlock target)
    {
        var lead = (int)Math.Clamp(-first, 0, source.Frames);
        var body = source.Slice(lead, source.Frames - lead);
        var rounded = target.Slice(lead, body.Frames);
        first += lead;
        var start = (int)Math.Clamp(stretch.From - first, 0, body.Frames);
        var end = (int)Math.Clamp(stretch.To - first, start, body.Frames);
        var measured = body.Slice(start, end - start);

        _loudness!.Add(measured);
        _truePeak!.Add(measured);
        for (var channel = 0; channel < measured.Channels; channel++)
        {
            // One sample after the other, so that where blocks are cut changes nothing.
            var energy = _energies[channel];
            foreach (var sample in measured[channel])
            {
                energy += sample * sample;
            }

            _energies[channel] = energy;
        }

        _peaks.Add(first + start, measured);
        for (var channel = 0; Host is null && channel < target.Channels; channel++)
        {
            source[channel][..lead].CopyTo(target[channel]);
        }

        round(Math.Max(0, first), body, rounded);
        writer?.Write(rounded.Slice(start, end - start));
    }
}

/// <summary>Rounds a block into another, which may be the same memory.</summary>
/// <param name="frame">Song frame of its first sample.</param>
/// <param name="source">The block.</param>
/// <param name="target">Where it goes.</param>
internal delegate void BlockRounding(long frame, AudioBlock source, AudioBlock target);

/// <summary>The part of song time a file holds, in frames.</summary>
/// <param name="From">First frame.</param>
/// <param name="To">One past the last frame rendered.</param>
/// <param name="SureTo">Where the file ends at the earliest.</param>
/// <param name="TailTo">Where its tail is over, by what its processors say.</param>
internal sealed record WrittenStretch(long From, long To, long SureTo, long TailTo);
