using System.Globalization;
using DrumPrint.Dsp.Numerics.Lanes;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Spectral;

namespace DrumPrint.Dsp.Processors;

/// <summary>Plays the signal in a recorded space: convolution with a mono, stereo or true-stereo impulse response.</summary>
/// <remarks>A mono signal counts as a centred stereo one at the same level in both sides. Through a stereo or true-stereo impulse
/// it gives what that stereo signal would. The latency is the block of the convolver, chosen by the impulse's length alone; where
/// the sound is heard live it is short, which changes the sound by rounding only. A conversion from another rate spreads sound ahead of the impulse's start. What of that the pre-delay does not hold is latency
/// too.</remarks>
public sealed class Convolve : IProcessor
{
    public static readonly ImpulseParameter ImpulseName = new("impulse", "Which impulse response to use, by its name in the chain.");
    public static readonly ChoiceParameter Level = new(
        "gain",
        [
            new Choice("energy", "Each source side comes back as loud as it went in, measured on white noise."),
            new Choice("loudness", "Each source side comes back as loud as it went in, measured on pink noise by a loudness meter: what fits drums best."),
            new Choice("peak", "The largest sample of the impulse counts as 1."),
            new Choice("as_is", "The impulse is used as it was saved."),
        ],
        "energy",
        "How the impulse is levelled.");

    public static readonly NumberParameter PreDelay = new("pre_delay_ms", Unit.Milliseconds, 0, 2000, 0, "Waits this long before the space answers; rounded to whole frames.");
    public static readonly NumberParameter TrimStart = new("trim_start_ms", Unit.Milliseconds, 0, 10000, 0, "Drops this much of the impulse's start, such as the direct sound.");
    public static readonly NumberParameter TrimEnd = new("trim_end_s", Unit.Seconds, 0.001, 120, null, "Ends the impulse at this time, counted from the start of its file.");
    public static readonly NumberParameter Fade = new("fade_ms", Unit.Milliseconds, 0, 10000, 0, "Fades out the last part of the impulse.");
    public static readonly NumberParameter DecayTarget = new("decay_s", Unit.Seconds, 0.02, 60, null, "Shortens the decay to this time (the time to fall by 60 dB).");
    public static readonly ConvolveOctave Octave = new();
    public static readonly ListParameter Octaves = new("octaves", [Octave], "Octaves of the impulse that are to decay otherwise, or to be louder or softer.") { IsRequired = false, IsLeftOutAtDefault = true };
    public static readonly NumberParameter Split = new("split_ms", Unit.Milliseconds, 1, 1000, 80, "Where the early part of the impulse ends, counted from its first sound.") { IsLeftOutAtDefault = true };
    public static readonly NumberParameter Early = new("early_db", Unit.Decibels, -60, 24, 0, "How much louder the early part becomes or, below zero, softer.") { IsLeftOutAtDefault = true };
    public static readonly NumberParameter Late = new("late_db", Unit.Decibels, -60, 24, 0, "How much louder the late part becomes or, below zero, softer.") { IsLeftOutAtDefault = true };
    public static readonly NumberParameter HighPass = new("high_pass_hz", Unit.Hertz, 10, 20000, null, "Takes out of the space what is below, 12 dB per octave.") { IsLeftOutAtDefault = true };
    public static readonly NumberParameter LowPass = new("low_pass_hz", Unit.Hertz, 20, 20000, null, "Takes out of the space what is above, 12 dB per octave.") { IsLeftOutAtDefault = true };
    public static readonly ToggleParameter Reversed = new("reversed", false, "Plays the impulse backwards: the space swells up and stops.") { IsLeftOutAtDefault = true };
    public static readonly NumberParameter Mix = new("mix_pct", Unit.Percent, 0, 100, 100, "How much of the space is heard; the rest is the dry signal.");

    // Everything waits for the longest latency, and after a jump all of it has to be made before the first sound.
    private const int LiveBlock = 4096;

    private readonly PartitionedConvolver _convolver;
    private readonly double[][] _in;
    private readonly double[][] _wet;
    private readonly double[][] _dry;
    private readonly WaitingLine _wetWait;
    private readonly WaitingLine _dryWait;
    private readonly double _wetGain;
    private readonly double _dryGain;
    private int _filled;

    private Convolve(Settings settings, ProcessorContext context)
    {
        var impulse = Find(settings, context);
        var channels = context.Format.Channels;
        var paths = Paths(impulse.Layout, channels);
        var outputs = Outputs(impulse.Layout, channels);
        var filters = context.Designs.Of(Key(settings, impulse, context), () => Filters(settings, impulse, context, paths.Length));
        _convolver = new PartitionedConvolver(filters, paths);
        _in = Buffers(channels, _convolver.Block);
        _wet = Buffers(outputs, _convolver.Block);
        _wetGain = settings[Mix] / 100;
        _dryGain = 1 - _wetGain;
        _dry = _dryGain > 0 ? Buffers(channels, _convolver.Block) : [];

        // What lies ahead of the impulse's start comes out of the pre-delay, and what that does not hold out of everything else.
        var preDelay = Frames(settings[PreDelay] / 1000, context.Format.SampleRate);
        // Played backwards, that is what rings last.
        var ahead = settings[TrimStart] > 0 || settings[Reversed] ? 0 : impulse.LeadFrames;
        var late = Math.Max(0, ahead - preDelay);
        _wetWait = new WaitingLine(channels, preDelay + late - ahead);
        _dryWait = new WaitingLine(_dry.Length, late);
        LatencyFrames = _convolver.Block + late;
        TailFrames = filters.Frames + preDelay;
    }

    public static ProcessorDefinition Definition { get; } = new(
        "convolve",
        1,
        "Plays the signal in a recorded space.",
        [ImpulseName, Level, PreDelay, TrimStart, TrimEnd, Fade, DecayTarget, Octaves, Split, Early, Late, HighPass, LowPass, Reversed, Mix],
        static (settings, context) => new Convolve(settings, context))
    {
        AlsoCalled = ["reverb", "convolution"],
        IsCostly = true,
        OutputChannels = static (settings, context) => Outputs(Find(settings, context).Layout, context.Format.Channels),
    };

    public int LatencyFrames { get; }

    public long TailFrames { get; }

    public void Process(AudioBlock block, AudioBlock key) => Run(block, isHeard: true);

    public void TakeIn(AudioBlock block, AudioBlock key) => Run(block, isHeard: false);

    private void Run(AudioBlock block, bool isHeard)
    {
        for (var frame = 0; frame < block.Frames;)
        {
            var part = block.Slice(frame, Math.Min(block.Frames - frame, _convolver.Block - _filled));
            Exchange(part);
            frame += part.Frames;
            _filled += part.Frames;
            if (_filled == _convolver.Block)
            {
                _filled = 0;
                KeepDry();
                _wetWait.Process(_in);
                if (isHeard)
                {
                    _convolver.Process(_in, _wet);
                }
                else
                {
                    _convolver.TakeIn(_in);
                }
            }
        }
    }

    // Takes the input in and gives out what was made of the block before.
    private void Exchange(AudioBlock part)
    {
        for (var channel = 0; channel < _in.Length; channel++)
        {
            part[channel].CopyTo(_in[channel].AsSpan(_filled));
        }

        for (var output = 0; output < _wet.Length; output++)
        {
            var to = part[output];
            var wet = _wet[output].AsSpan(_filled, to.Length);
            if (_dry.Length == 0)
            {
                wet.CopyTo(to);
                continue;
            }

            var dry = _dry[Math.Min(output, _dry.Length - 1)].AsSpan(_filled, to.Length);
            for (var n = 0; n < to.Length; n++)
            {
                to[n] = (dry[n] * _dryGain) + (wet[n] * _wetGain);
            }
        }
    }

    private void KeepDry()
    {
        for (var channel = 0; channel < _dry.Length; channel++)
        {
            _in[channel].CopyTo(_dry[channel], 0);
        }

        _dryWait.Process(_dry);
    }

    private static Impulse Find(Settings settings, ProcessorContext context) =>
        context.Impulses.TryGetValue(settings[ImpulseName], out var impulse)
            ? impulse
            : throw new SettingsException(ImpulseName, $"There is no impulse called '{settings[ImpulseName]}'.");

    private static int Outputs(ImpulseLayout layout, int channels) => layout == ImpulseLayout.Mono ? channels : 2;

    private static ConvolutionPath[] Paths(ImpulseLayout layout, int channels)
    {
        var right = channels - 1;
        return layout switch
        {
            ImpulseLayout.Mono => [.. Enumerable.Range(0, channels).Select(c => new ConvolutionPath(c, 0, c))],
            ImpulseLayout.Stereo => [new(0, 0, 0), new(right, 1, 1)],
            _ => channels == 1 ? [new(0, 0, 0), new(0, 1, 1)] : [new(0, 0, 0), new(1, 2, 0), new(0, 1, 1), new(1, 3, 1)],
        };
    }

    // What a source in the middle excites: both sides together, for each receiving side.
    private static double[][] BothSources(double[][] filters) =>
        [[.. filters[0].Zip(filters[2], (a, b) => a + b)], [.. filters[1].Zip(filters[3], (a, b) => a + b)]];

    private static FilterKey Key(Settings settings, Impulse impulse, ProcessorContext context) =>
        new(impulse, context.Format.Channels, context.IsHeardLive, string.Join(' ', Definition.Parameters.Where(p => p != Mix && p != PreDelay).Select(p => Text(settings.Raw(p)))));

    // To the last bit, for two filters are one only when their settings are.
    private static string Text(object? value) => value switch
    {
        double number => string.Create(CultureInfo.InvariantCulture, $"{number:R}"),
        IReadOnlyList<Item> items => $"[{string.Join(' ', items.SelectMany(i => i.Kind.Parameters.Select(p => Text(i.Settings.Raw(p)))))}]",
        bool isOn => isOn ? "on" : "off",
        string word => word,
        _ => "-",
    };

    private static PartitionedFilters Filters(Settings settings, Impulse impulse, ProcessorContext context, int paths)
    {
        var channels = context.Format.Channels;
        var filters = ConvolveShape.Of(settings, impulse);
        filters = channels == 1 && impulse.Layout == ImpulseLayout.TrueStereo ? BothSources(filters) : filters;
        var block = ConvolutionBlock.For(filters[0].Length, channels + Outputs(impulse.Layout, channels), paths);
        return new PartitionedFilters(filters, context.IsHeardLive ? Math.Min(block, LiveBlock) : block, LaneWidth.Best);
    }

    private static int Frames(double seconds, int sampleRate) => (int)Math.Round(seconds * sampleRate);

    private static double[][] Buffers(int channels, int frames) => [.. Enumerable.Range(0, channels).Select(_ => new double[frames])];

    // What the filters hang on, and nothing else: other values may move while they stay.
    private sealed record FilterKey(Impulse Impulse, int Channels, bool IsHeardLive, string Settings);
}
