using DrumPrint.Dsp.Dynamics;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Layering;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Processors;

/// <summary>Plays a recorded sound under each hit.</summary>
/// <remarks><see cref="HitDetector"/> finds hits, in the key if there is one. <see cref="HitMatcher"/> lays the sound over each, in the signal
/// itself: so a hit that only the key has gets nothing. <see cref="HitTrain"/> and a convolver play it; hits may overlap as they like. All of it
/// looks ahead, so the sound lies at the hit. A sound of one channel is the same on both sides.</remarks>
public sealed class Layer : IProcessor
{
    public static readonly ImpulseParameter Sound = new("sound", "Which sound is played, by its name among the chain's impulses.");
    public static readonly NumberParameter From = new("from_s", Unit.Seconds, 0, 7200, 0, "Where in its file the sound begins: so a hit of the take itself can be played.");
    public static readonly NumberParameter To = new("to_s", Unit.Seconds, 0.001, 7200, null, "Where in its file the sound ends, counted from the file's start; its last 5 ms fade out.") { LeftOut = "the end of the file" };
    public static readonly NumberParameter Open = new("open_db", Unit.Decibels, -80, 20, -40, "Peak level that a hit has to reach.") { AlsoCalled = ["threshold"], IsInExample = true };
    public static readonly NumberParameter Rise = new("rise_db", Unit.Decibels, 1, 24, 6, "How far a hit stands out of what was before. Less finds softer ghost notes, more is deafer to what rings on.") { AlsoCalled = ["sensitivity"] };
    public static readonly NumberParameter Gap = new("gap_ms", Unit.Milliseconds, 5, 500, 40, "Hits closer than this are one; the sound is played under the surest and loudest of them.") { AlsoCalled = ["retrigger"] };
    public static readonly NumberParameter Follow = new("follow_pct", Unit.Percent, 0, 100, 100, "How far the sound's level follows the hit's: at 100 as the hit, at 0 always the same.") { AlsoCalled = ["velocity", "dynamics"], IsInExample = true };
    public static readonly NumberParameter SteadyLevel = new("steady_db", Unit.Decibels, -80, 20, -12, "Peak level of the sound where it does not follow the hit's.");
    public static readonly NumberParameter Level = new("level_db", Unit.Decibels, -60, 40, 0, "How much louder or, below zero, softer the sound is played.");
    public static readonly NumberParameter Match = new("match_ms", Unit.Milliseconds, 2, 200, 40, "How much of a hit's beginning is compared with the sound's, for time, polarity and level.");
    public static readonly NumberParameter Reach = new("reach_ms", Unit.Milliseconds, 0.1, 20, 5, "How far the sound may be moved so that it fits a hit.");

    public static readonly ChoiceParameter WayUp = new(
        "polarity",
        [new("auto", "The way round that fits each hit better."), new("as_is", "As it was recorded."), new("inverted", "The other way round.")],
        "auto",
        "Which way round the sound is played.");

    public static readonly NumberParameter LeastMatch = new("least_match_pct", Unit.Percent, 0, 99, 0, "How much a hit has to be like the sound, by their correlation: leaves out other drums where the sound is a hit of this one.");
    public static readonly NumberParameter KeyHighPass = new("key_high_pass_hz", Unit.Hertz, 10, 20000, null, "Makes the detection deaf to what is below, 12 dB per octave.");
    public static readonly NumberParameter KeyLowPass = new("key_low_pass_hz", Unit.Hertz, 20, 20000, null, "Makes the detection deaf to what is above, 12 dB per octave.");
    public static readonly NumberParameter Mix = new("mix_pct", Unit.Percent, 0, 100, 100, "How much of the sound is heard; the rest is the untouched signal.");

    private const int Chunk = HitDetector.MaxFrames;
    private const int LiveBlock = 4096;
    private const double FadeMs = 5;
    private const double PeakMs = 8;

    private readonly HitDetector _detector;
    private readonly HitMatcher _matcher;
    private readonly HitTrain _train;
    private readonly PartitionedConvolver _convolver;
    private readonly LookAhead[] _dry;
    private readonly double[] _middle;
    private readonly long _mask;
    private readonly long[] _waiting;
    private readonly LayerHit[] _hits;
    private readonly double[][] _in;
    private readonly double[][] _wet;
    private readonly int _channels;
    private readonly int _begins;
    private readonly int _peakFrames;
    private readonly double _follow;
    private readonly double _levelDb;
    private readonly double _steadyDb;
    private readonly double _leastMatch;
    private readonly double _wetGain;
    private readonly double _dryGain;
    private int _filled;
    private long _frames;
    private int _firstWaiting;
    private int _waits;
    private int _count;

    private Layer(Settings settings, ProcessorContext context)
    {
        var rate = context.Format.SampleRate;
        var (high, low) = (settings.Find(KeyHighPass), settings.Find(KeyLowPass));
        var sound = Cut(settings, context, high, low);
        _detector = new HitDetector(new KeyInput(context, high, low), rate, settings[Open], settings[Rise], settings[Gap]);
        var sign = settings[WayUp] switch { "auto" => 0, "as_is" => 1, _ => -1 };
        _matcher = new HitMatcher(sound, rate, settings[Match], settings[Reach], sign);
        (_channels, _begins, _peakFrames) = (context.Format.Channels, sound.Begins, TriggerTimes.Frames(PeakMs, rate));
        _follow = settings[Follow] / 100;
        _levelDb = settings[Level];
        _steadyDb = settings[SteadyLevel] - Decibels.FromGain(sound.Channels.Max(c => c.Max(Math.Abs)));
        _leastMatch = settings[LeastMatch] / 100;
        (_wetGain, _dryGain) = (settings[Mix] / 100, 1 - (settings[Mix] / 100));

        // A hit is known once it was found and all of it that is compared has come.
        var known = Math.Max(_detector.DelayFrames, _matcher.FramesAfter) + 1;
        var delay = known + _begins + _matcher.ReachFrames + HitTrain.Reach + 1;
        _train = new HitTrain(delay, Chunk);
        var filters = context.Designs.Of(
            new FilterKey(Find(settings, context), settings[From], settings.Find(To), high, low, context.IsHeardLive),
            () => Filters(sound.Channels, context));
        _convolver = new PartitionedConvolver(filters, [.. sound.Channels.Select((_, c) => new ConvolutionPath(0, c, c))]);
        (_in, _wet) = (Buffers(1), Buffers(sound.Channels.Length));
        LatencyFrames = delay + _convolver.Block;
        TailFrames = filters.Frames + HitTrain.Reach + _matcher.ReachFrames;
        MemoryFrames = _detector.MemoryFrames + _matcher.FramesBefore + _matcher.FramesAfter + TailFrames;

        var room = 1L;
        while (room < known + _matcher.FramesBefore + (2 * Chunk))
        {
            room *= 2;
        }

        (_middle, _mask) = (new double[room], room - 1);
        var gap = TriggerTimes.Frames(settings[Gap], rate);
        _waiting = new long[((known + Chunk) / Math.Max(1, gap)) + 2];
        _hits = new LayerHit[(context.Frames / Math.Max(1, gap)) + 2];
        _dry = new LookAhead[_dryGain > 0 ? context.Format.Channels : 0];
        for (var channel = 0; channel < _dry.Length; channel++)
        {
            _dry[channel] = new LookAhead(LatencyFrames, Chunk);
        }
    }

    public static ProcessorDefinition Definition { get; } = new(
        "layer",
        1,
        "Plays a recorded sound under each hit, at its place, level and polarity.",
        [Sound, From, To, Open, Rise, Gap, Follow, SteadyLevel, Level, Match, Reach, WayUp, LeastMatch, KeyHighPass, KeyLowPass, Mix],
        static (settings, context) => new Layer(settings, context))
    {
        AlsoCalled = ["trigger", "sample", "replace"],
        TakesKey = true,
        IsNonLinear = true,
        OutputChannels = static (settings, context) => Math.Max(context.Format.Channels, Find(settings, context).Layout == ImpulseLayout.Stereo ? 2 : 1),
    };

    public int LatencyFrames { get; }

    public long TailFrames { get; }

    public long MemoryFrames { get; }

    /// <summary>The hits so far, in order. Filled while it runs; what lies beyond the render's length is not kept.</summary>
    public ReadOnlySpan<LayerHit> Hits => _hits.AsSpan(0, _count);

    public void Process(AudioBlock block, AudioBlock key)
    {
        for (var start = 0; start < block.Frames; start += Chunk)
        {
            var part = block.Slice(start, Math.Min(Chunk, block.Frames - start));
            Listen(part, _detector.IsExternal ? key.Slice(start, part.Frames) : AudioBlock.None);
            Play(part);
        }
    }

    private void Listen(AudioBlock part, AudioBlock key)
    {
        var left = part[0];
        var right = part[_channels - 1];
        for (var n = 0; n < left.Length; n++)
        {
            _middle[(_frames + n) & _mask] = (left[n] + right[n]) * 0.5;
        }

        foreach (var frame in _detector.Read(part, key))
        {
            _waiting[(_firstWaiting + _waits++) % _waiting.Length] = frame;
        }

        _frames += left.Length;
        while (_waits > 0 && _waiting[_firstWaiting] + _matcher.FramesAfter <= _frames)
        {
            Place(_waiting[_firstWaiting]);
            _firstWaiting = (_firstWaiting + 1) % _waiting.Length;
            _waits--;
        }
    }

    private void Place(long frame)
    {
        var stretch = _matcher.Stretch;
        for (var i = 0; i < stretch.Length; i++)
        {
            stretch[i] = _middle[(frame - _matcher.FramesBefore + i) & _mask];
        }

        if (_matcher.Match() is not { } match || match.Likeness < _leastMatch)
        {
            return;
        }

        // As the hit: so much louder than the sound was recorded.
        var asHitDb = Decibels.FromGain(Math.Sqrt(match.Ratio));
        var gainDb = _levelDb + (_follow * asHitDb) + ((1 - _follow) * _steadyDb);
        var isInverted = match.Correlation < 0;
        var at = frame + match.LaterFrames;
        _train.Add(at - _begins, (isInverted ? -1 : 1) * Decibels.ToGain(gainDb));
        if (_count < _hits.Length)
        {
            _hits[_count++] = new LayerHit(at, Decibels.FromGain(Peak(frame)), gainDb, isInverted, match.Likeness);
        }
    }

    private double Peak(long frame)
    {
        var peak = 0.0;
        for (var i = 0; i < _peakFrames; i++)
        {
            peak = Math.Max(peak, Math.Abs(_middle[(frame + i) & _mask]));
        }

        return peak;
    }

    // Takes the clicks in and gives out what was made of the block before.
    private void Play(AudioBlock part)
    {
        for (var channel = 0; channel < _dry.Length; channel++)
        {
            _dry[channel].Process(part[channel]);
        }

        for (var frame = 0; frame < part.Frames;)
        {
            var now = part.Slice(frame, Math.Min(part.Frames - frame, _convolver.Block - _filled));
            _train.Take(_in[0].AsSpan(_filled, now.Frames));
            for (var channel = now.Channels - 1; channel >= 0; channel--)
            {
                Mixed(_wet[Math.Min(channel, _wet.Length - 1)].AsSpan(_filled, now.Frames), now[Math.Min(channel, _channels - 1)], now[channel]);
            }

            frame += now.Frames;
            _filled += now.Frames;
            if (_filled == _convolver.Block)
            {
                _filled = 0;
                _convolver.Process(_in, _wet);
            }
        }
    }

    private void Mixed(ReadOnlySpan<double> wet, ReadOnlySpan<double> dry, Span<double> to)
    {
        for (var n = 0; n < to.Length; n++)
        {
            to[n] = _dryGain > 0 ? (dry[n] * _dryGain) + (wet[n] * _wetGain) : wet[n];
        }
    }

    private static Impulse Find(Settings settings, ProcessorContext context) =>
        !context.Impulses.TryGetValue(settings[Sound], out var impulse) ? throw new SettingsException(Sound, $"There is no impulse called '{settings[Sound]}'.")
        : impulse.Layout == ImpulseLayout.TrueStereo ? throw new SettingsException(Sound, $"The impulse '{settings[Sound]}' has four channels; a sound that is played under hits has one or two.")
        : impulse;

    private static LayerSound Cut(Settings settings, ProcessorContext context, double? highPassHz, double? lowPassHz)
    {
        var impulse = Find(settings, context);
        var rate = context.Format.SampleRate;
        var from = settings[From] > 0 ? Math.Min(impulse.Frames, impulse.LeadFrames + Frames(settings[From], rate)) : 0;
        var to = settings.Find(To) is { } seconds ? Math.Min(impulse.Frames, impulse.LeadFrames + Frames(seconds, rate)) : impulse.Frames;
        if (from >= to)
        {
            throw new SettingsException(From, FormattableString.Invariant($"Nothing is left of '{impulse.Name}' ({(double)(impulse.Frames - impulse.LeadFrames) / rate:0.###} s) from 'from_s' to 'to_s'."));
        }

        var channels = ImpulseShape.Cut(impulse.Channels, from, to);
        ImpulseShape.FadeOut(channels, settings.Find(To) is null ? 0 : Math.Min(to - from, TriggerTimes.Frames(FadeMs, rate)));
        return LayerSound.Of(channels, rate, highPassHz, lowPassHz) ?? throw new SettingsException(Sound, $"'{impulse.Name}' is silent, so there is nothing to play.");
    }

    private static PartitionedFilters Filters(double[][] channels, ProcessorContext context)
    {
        var block = ConvolutionBlock.For(channels[0].Length, 1 + channels.Length, channels.Length);
        return new PartitionedFilters(channels, context.IsHeardLive ? Math.Min(block, LiveBlock) : block, LaneWidth.Best);
    }

    private static int Frames(double seconds, int sampleRate) => (int)Math.Min(int.MaxValue / 2, Math.Round(seconds * sampleRate));

    private double[][] Buffers(int count) => [.. Enumerable.Range(0, count).Select(_ => new double[_convolver.Block])];

    // What the filters hang on, and nothing else: other values may move while they stay.
    private sealed record FilterKey(Impulse Impulse, double FromS, double? ToS, double? HighPassHz, double? LowPassHz, bool IsHeardLive);
}
