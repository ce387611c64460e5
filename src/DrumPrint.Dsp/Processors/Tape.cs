using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Mixing;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Oversampling;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Saturation;

namespace DrumPrint.Dsp.Processors;

/// <summary>Records the signal to magnetic tape and plays it back.</summary>
/// <remarks>
/// <para>Calibrated like a recorder, by a sine at <see cref="Reference"/> plus <see cref="Headroom"/> without drive. At 660 Hz it
/// comes back with 3 % third harmonic. From 400 Hz to 1 kHz it comes back within half a decibel of that level. Levels of sines
/// follow AES17: a full-scale sine is 0 dBFS. Small signals come back as they went in, plus drive, but for <see cref="Bump"/> and
/// <see cref="Top"/>.</para>
/// <para>The parts: <see cref="TapeEqualization"/>, <see cref="Hysteresis"/> on <see cref="Langevin"/>'s curve,
/// <see cref="HeadLoss"/>, a bell for the head bump, and a first-order high-pass at 2 Hz at either end. The high-passes
/// are there since tape neither takes nor gives a steady level.</para>
/// <para>Most of what is heard is curve and equalisation. With the bias on, the medium's memory is 5 µs long. Beyond its curve it
/// moves the phase of loud treble by some degrees. It moves that of the middle and bass by hundredths of one. Hum, hiss, flutter,
/// print-through and a change of the record level with the bass are not there.</para>
/// </remarks>
public sealed class Tape : IProcessor
{
    public static readonly NumberParameter Drive = new("drive_db", Unit.Decibels, -24, 36, 0, "Level onto the tape; quiet passages come out this much louder.");
    public static readonly NumberParameter Reference = new("reference_db", Unit.Decibels, -40, 0, -18, "Operating level: the RMS level of a sine in dBFS, where a full-scale sine is 0.");
    public static readonly NumberParameter Headroom = new("headroom_db", Unit.Decibels, 0, 24, 8, "How far above the operating level the third harmonic reaches 3 %.");
    public static readonly NumberParameter Speed = new("speed_in_per_s", Unit.InchesPerSecond, 7.5, 30, 15, "Tape speed; slower tape bends the treble earlier.") { Steps = [7.5, 15, 30] };

    public static readonly ChoiceParameter Curve = new(
        "curve",
        [
            new("iec", "Treble equalisation only: 70, 35 or 17.5 µs at 7.5, 15 or 30 in/s."),
            new("nab", "One treble equalisation and a bass one; at 7.5 and 15 in/s."),
        ],
        "iec",
        "Equalisation standard of record and playback.");

    public static readonly NumberParameter Bump = new("bump_db", Unit.Decibels, -6, 12, 1, "Height of the playback head's bump in the bass.");
    public static readonly NumberParameter BumpFreq = new("bump_hz", Unit.Hertz, 15, 400, null, "Centre of the head bump.") { LeftOut = "4 Hz for each inch per second" };
    public static readonly NumberParameter Top = new("top_db", Unit.Decibels, -12, 0, null, "Level left at 14 kHz by a playback head in less than perfect order.");
    public static readonly NumberParameter Factor = new("oversampling", Unit.None, 2, 16, 8, "How many times the sample rate is raised around the tape.") { Steps = [2, 4, 8, 16] };
    public static readonly NumberParameter Output = new("output_db", Unit.Decibels, -48, 24, 0, "Level after the tape, before the mix.");
    public static readonly NumberParameter Mix = new("mix_pct", Unit.Percent, 0, 100, 100, "How much of the tape; the rest is the untouched signal.");

    private const double CalibrationHz = 660;
    private const double CalibrationRatio = 0.03;

    // Our own figure, from memory: the bump moves with the speed, since it hangs on the wavelength against the head's size.
    private const double BumpHzPerSpeed = 4;
    private const double BumpQ = 1;
    private const double SteadyHz = 2;

    private readonly double _gainIn;
    private readonly ChannelCascade _before;
    private readonly Oversampler _oversampler;
    private readonly TapeStage _stage;
    private readonly ChannelCascade _after;
    private readonly DryPath[] _dry;
    private readonly DesignMemory _designs;
    private readonly FilterKey _filterKey;
    private readonly BiquadCoefficients[] _filters;

    private Tape(Settings settings, ProcessorContext context)
    {
        var format = context.Format;
        var isNab = settings[Curve] == "nab";
        if (isNab && settings[Speed] == 30)
        {
            throw new SettingsException(Curve, "There is no nab curve at 30 in/s; use iec there.");
        }

        var equalization = TapeEqualization.For(settings[Speed], isNab);

        // Playback lowers the third harmonic more than the first.
        var inMedium = CalibrationRatio * equalization.GainIn(3 * CalibrationHz) / equalization.GainIn(CalibrationHz);
        var level = Decibels.ToGain(settings[Reference] + settings[Headroom]) * equalization.GainIn(CalibrationHz);
        var fieldGain = TapeCalibration.FieldFor(inMedium, CalibrationHz) / level;

        var factor = (int)settings[Factor];
        var speed = settings[Speed];
        var (rate, channels) = (format.SampleRate, format.Channels);
        var bass = equalization.BassIn(rate);
        var steady = BiquadDesign.HighPass(SteadyHz, 1, rate);
        var bumpHz = settings.Find(BumpFreq) ?? (BumpHzPerSpeed * speed);
        var bump = BiquadDesign.Bell(bumpHz, settings[Bump], BumpQ, rate);
        var lag = new TapeLag(rate, factor);
        var loss = new HeadLoss(speed, Decibels.ToGain(settings.Find(Top) ?? 0));

        _gainIn = Decibels.ToGain(settings[Drive]) * fieldGain;
        _before = new ChannelCascade([.. steady, .. bass], channels);
        var design = context.Designs.Of(
            new DesignKey(factor, rate, speed, settings.Find(Top)),
            () => new OversamplerDesign(factor, rate, lag.Delay, f => loss.GainAt(f * rate) / lag.GainAt(f * rate), cancels: false));
        _oversampler = new Oversampler(design, channels);
        _stage = new TapeStage(equalization, lag, rate, factor, channels);
        _after = new ChannelCascade([.. bass.Select(b => b.Inverse()), .. steady, .. bump], channels);
        _designs = context.Designs;
        _filterKey = new FilterKey(rate, speed, settings[Curve], settings[Bump], bumpHz);
        _filters = [.. steady, .. bass, .. bass.Select(b => b.Inverse()), .. steady, .. bump];
        _dry = DryPath.ForEach(channels, LatencyFrames, Decibels.ToGain(settings[Output]) / (fieldGain * TapeMedium.SmallSignalGain), settings[Mix]);
    }

    public static ProcessorDefinition Definition { get; } = new(
        "tape",
        1,
        "Records the signal to magnetic tape and plays it back.",
        [Drive, Reference, Headroom, Speed, Curve, Bump, BumpFreq, Top, Factor, Output, Mix],
        static (settings, context) => new Tape(settings, context))
    {
        IsNonLinear = true,
        IsCostly = true,
        HasSeparateChannels = static _ => true,
    };

    public int LatencyFrames => _oversampler.LatencyFrames;

    public long TailFrames => LatencyFrames + _before.TailFrames + _after.TailFrames;

    public long MemoryFrames => LatencyFrames + _designs.Of(_filterKey, () => new Remembered(FilterTail.FramesOfSum(_filters))).Frames;

    public void Process(AudioBlock block, AudioBlock key)
    {
        for (var start = 0; start < block.Frames; start += PhaseBuffer.MaxFrames)
        {
            var stretch = block.Slice(start, Math.Min(block.Frames - start, PhaseBuffer.MaxFrames));
            for (var c = 0; c < _dry.Length; c++)
            {
                _dry[c].Keep(stretch[c]);
                Blend.Copy(stretch[c], _gainIn, stretch[c]);
            }

            _before.Process(stretch);
            _oversampler.Process(stretch, _stage);
            _after.Process(stretch);
            for (var c = 0; c < _dry.Length; c++)
            {
                _dry[c].Blend(stretch[c]);
            }
        }
    }

    // What decides how long the filters before and after the tape ring.
    private sealed record FilterKey(int SampleRate, double Speed, string Curve, double BumpDb, double BumpHz);

    private sealed record Remembered(long Frames);

    private sealed record DesignKey(int Factor, int SampleRate, double Speed, double? TopDb);
}
