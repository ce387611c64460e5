using DrumPrint.Dsp.Masking;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>Turns down in one microphone what another hears better.</summary>
/// <remarks>
/// <para>The key is that other microphone. Each of two sides of a key counts for itself, so two neighbours can be one key. For every band
/// the way from the key to here is learnt (<see cref="SpillWay"/>). What the key plays, sent by that way, is the spill expected, and
/// <see cref="SpillMask"/> turns it down. The phase is left as it is.</para>
/// <para>Where nothing is turned down every bit stays.</para>
/// </remarks>
public sealed class Spill : IProcessor, IGainReducer
{
    public static readonly NumberParameter Amount = new("amount_db", Unit.Decibels, 0, 40, 12, "The most that spill is turned down.") { IsInExample = true };
    public static readonly NumberParameter Most = new("heard_at_most_db", Unit.Decibels, -40, 20, 0, "The most that the key's drum can be heard at here, against its level in the key. What is louder counts as this microphone's own.");
    public static readonly NumberParameter Ring = new("ring_ms", Unit.Milliseconds, 0, 3000, 200, "How long spill rings on after the key has stopped, to fall by 60 dB.");
    public static readonly NumberParameter Learn = new("learn_s", Unit.Seconds, 1, 60, 12, "How far back it listens to learn how the key is heard here.");
    public static readonly NumberParameter Ahead = new("look_ahead_s", Unit.Seconds, 0.02, 10, 4, "How far ahead it listens for that. The print stays in time.");

    // Squares have died away by 120 dB, and what they do by 60 dB more than the song would hear.
    private const double RingsPerMemory = 2;

    private readonly int _step;
    private readonly SpillKey[] _keys;
    private readonly SpillChannel[] _channels;
    private readonly double[] _gains;
    private int _filled;
    private int _gainAt;
    private int _untilSound;

    private Spill(Settings settings, ProcessorContext context)
    {
        if (context.KeyChannels == 0)
        {
            throw new SettingsException(null, "'spill' has no key; give it the track or bus that hears better what is to be turned down, such as \"key\": \"snare top\".");
        }

        var layout = SpillLayout.For(context.Format.SampleRate, settings[Ahead]);
        var frames = layout.Frames;
        var moments = layout.StepsAhead + frames.Steps(settings[Learn]);
        var ringS = settings[Ring] / 1000;
        var (most, floor) = (Decibels.ToGain(2 * settings[Most]), Decibels.ToGain(-settings[Amount]));
        _step = frames.Step;
        _keys = [.. Enumerable.Range(0, context.KeyChannels).Select(_ => new SpillKey(layout, ringS))];
        _channels = [.. Enumerable.Range(0, context.Format.Channels).Select(_ => new SpillChannel(layout, _keys, moments, most, floor))];

        // A frame's gain belongs to its middle.
        _gains = [.. Enumerable.Repeat(1.0, frames.Length / 2 / _step)];
        LatencyFrames = (layout.StepsAhead * _step) + frames.Length;
        _untilSound = LatencyFrames;
        TailFrames = frames.Length;
        MemoryFrames = ((moments + SpillLayout.RecentSteps) * (long)_step) + frames.Length + (long)(RingsPerMemory * ringS * context.Format.SampleRate);
        GainCurve = new GainCurve(context.Format.SampleRate, context.Frames);
    }

    public static ProcessorDefinition Definition { get; } = new(
        "spill",
        1,
        "Turns down what another microphone hears better.",
        [Amount, Most, Ring, Learn, Ahead],
        static (settings, context) => new Spill(settings, context))
    {
        AlsoCalled = ["bleed", "leakage", "crosstalk"],
        TakesKey = true,
        NeedsKey = true,
        IsNonLinear = true,
        IsCostly = true,
    };

    public int LatencyFrames { get; }

    public long TailFrames { get; }

    /// <summary>As long as it listens back; begun later, it has learnt less.</summary>
    public long MemoryFrames { get; }

    public int StepFrames => _step;

    /// <summary>How far the sound as a whole went down, of two sides the lower, in time with the sound after the latency has been taken
    /// out.</summary>
    public GainCurve GainCurve { get; }

    public void Process(AudioBlock block, AudioBlock key)
    {
        for (var frame = 0; frame < block.Frames;)
        {
            var frames = Math.Min(block.Frames - frame, _step - _filled);
            Exchange(block.Slice(frame, frames), key.Slice(frame, frames));
            frame += frames;
            _filled += frames;
            if (_filled == _step)
            {
                _filled = 0;
                Next();
            }
        }
    }

    // Takes the input in and gives out what has come through.
    private void Exchange(AudioBlock block, AudioBlock key)
    {
        for (var side = 0; side < _keys.Length; side++)
        {
            key[side].CopyTo(_keys[side].Newest[_filled..]);
        }

        for (var channel = 0; channel < _channels.Length; channel++)
        {
            var samples = block[channel];
            samples.CopyTo(_channels[channel].Newest[_filled..]);
            _channels[channel].Out.AsSpan(_filled, samples.Length).CopyTo(samples);
        }

        for (var n = 0; n < block.Frames; n++)
        {
            if (_untilSound > 0)
            {
                _untilSound--;
            }
            else
            {
                GainCurve.Add(_gains[_gainAt]);
            }
        }
    }

    private void Next()
    {
        foreach (var key in _keys)
        {
            key.Next();
        }

        foreach (var key in _keys)
        {
            key.LeadOver(_keys);
        }

        var gain = 1.0;
        foreach (var channel in _channels)
        {
            channel.Next();
            gain = Math.Min(gain, channel.Gain);
        }

        _gains[_gainAt] = gain;
        _gainAt = _gainAt + 1 == _gains.Length ? 0 : _gainAt + 1;
    }
}
