using DrumPrint.Dsp.Mains;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>Takes out the hum of the mains and its harmonics, and leaves a drum at the same frequency alone.</summary>
/// <remarks>The hum is learnt between the hits, over seconds before and after: see <see cref="HumEstimator"/>. What is learnt is taken away;
/// nothing is filtered. So no drum rings longer or loses its note. Each channel counts for itself. Where there is no hum every bit stays.</remarks>
public sealed class Hum : IProcessor, IGainReducer
{
    public static readonly NumberParameter Freq = new("freq_hz", Unit.Hertz, 40, 70, 50, "Frequency of the mains where it was recorded: 50 or 60.") { IsInExample = true };
    public static readonly NumberParameter Track = new("track_hz", Unit.Hertz, 0, 0.25, 0.1, "How far from that the mains may be; they are followed.");
    public static readonly NumberParameter Harmonics = new("harmonics", Unit.None, 1, 40, 20, "Up to which multiple of the frequency hum is taken out.") { Steps = [1, 2, 5, 10, 20, 40] };
    public static readonly NumberParameter Learn = new("learn_s", Unit.Seconds, 1, 20, 8, "How long hum is taken to stay as it is, half of it before and half after. Longer is safer for drums, shorter follows hum that changes.");

    private readonly HumChannel[] _channels;
    private readonly int _step;
    private readonly int _period;
    private int _filled;

    private Hum(Settings settings, ProcessorContext context)
    {
        var rate = context.Format.SampleRate;
        var period = (int)Math.Round(rate / settings[Freq]);

        // No harmonic beyond 0.4 of the rate.
        var harmonics = Math.Clamp((int)settings[Harmonics], 1, Math.Max(1, (int)(0.4 * period)));
        var basis = context.Designs.Of(("hum", period, harmonics), () => new HumBasis(period, harmonics));
        var around = Math.Max(1, (int)Math.Round(settings[Learn] * rate / (2.0 * basis.Step)));
        (_step, _period) = (basis.Step, period);
        _channels = new HumChannel[context.Format.Channels];
        for (var channel = 0; channel < _channels.Length; channel++)
        {
            var estimator = new HumEstimator(basis, rate, settings[Freq], settings[Track], (2 * around) + 1);
            _channels[channel] = new HumChannel(basis, estimator, around);
        }

        LatencyFrames = _channels[0].DelaySteps * _step;
        MemoryFrames = (long)_channels[0].MemorySteps * _step;
        GainCurve = new GainCurve(rate, context.Frames);
    }

    public static ProcessorDefinition Definition { get; } = new(
        "hum",
        1,
        "Takes out the hum of the mains, and leaves drums alone.",
        [Freq, Track, Harmonics, Learn],
        static (settings, context) => new Hum(settings, context))
    {
        AlsoCalled = ["mains", "buzz", "notch", "comb"],
        IsNonLinear = true,
    };

    public int LatencyFrames { get; }

    public long MemoryFrames { get; }

    public int StepFrames => HumChannel.StepsPerSearch * _step;

    /// <summary>How far the level went down with the hum, period by period, of two sides the one that went down further.</summary>
    public GainCurve GainCurve { get; }

    public void Process(AudioBlock block, AudioBlock key)
    {
        for (var frame = 0; frame < block.Frames;)
        {
            var frames = Math.Min(block.Frames - frame, _step - _filled);
            for (var channel = 0; channel < _channels.Length; channel++)
            {
                var samples = block[channel].Slice(frame, frames);
                samples.CopyTo(_channels[channel].Newest.AsSpan(_filled));
                _channels[channel].Out.AsSpan(_filled, frames).CopyTo(samples);
            }

            frame += frames;
            _filled += frames;
            if (_filled == _step)
            {
                _filled = 0;
                Next();
            }
        }
    }

    private void Next()
    {
        var isSound = false;
        foreach (var channel in _channels)
        {
            isSound = channel.Next();
        }

        for (var i = 0; i < HumBasis.PeriodsPerStep && isSound; i++)
        {
            var gain = _channels[0].Gains[i];
            for (var channel = 1; channel < _channels.Length; channel++)
            {
                gain = double.MinNative(gain, _channels[channel].Gains[i]);
            }

            for (var frame = 0; frame < _period; frame++)
            {
                GainCurve.Add(gain);
            }
        }
    }
}
