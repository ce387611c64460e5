using DrumPrint.Dsp.Crossovers;
using DrumPrint.Dsp.Filters;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Processors;

/// <summary>Parts the signal into two to four bands, runs each through processors of its own and sums them.</summary>
/// <remarks>
/// Bands in which nothing happens add up to the signal: with its phase turned by an all-pass (<see cref="SteepSplit"/>), or as it was
/// (<see cref="LinearSplit"/>). All bands wait for the one whose processors take longest. What stands in a band has its first revision: a
/// newer one comes with a newer revision of this.
/// </remarks>
public sealed class Bands : IProcessor, IGainReducers
{
    public static readonly NumberParameter Split = new("split_hz", Unit.Hertz, 20, 20000, 200, "Where the low band ends; both sides are 6 dB down there.") { IsInExample = true };
    public static readonly NumberParameter Split2 = new("split_2_hz", Unit.Hertz, 20, 20000, null, "Where the next band ends, for three bands or four.");
    public static readonly NumberParameter Split3 = new("split_3_hz", Unit.Hertz, 20, 20000, null, "Where the band after it ends, for four bands.");
    public static readonly NumberParameter Slope = new("slope_db_per_oct", Unit.DecibelsPerOctave, 24, 48, 24, "How steeply the bands part.") { Steps = [24, 48] };

    public static readonly ChoiceParameter Phase = new(
        "phase",
        [
            new("minimum", "Turned as by an all-pass, without any time ahead."),
            new("linear", "It stays as it is. The bands ring before a hit as long as after it; the print stays in time."),
        ],
        "minimum",
        "What parting does to the phase.");

    /// <summary>Two, three or four bands by name, the lowest first.</summary>
    private static readonly string[][] Names = [["low", "high"], ["low", "mid", "high"], ["low", "low_mid", "high_mid", "high"]];

    private static readonly ProcessorKind[] Inner =
    [
        new(Compress.Definition),
        new(Eq.Definition),
        new(DynamicEq.Definition),
        new(Gate.Definition),
        new(Hits.Definition),
        new(Limit.Definition),
        new(Clip.Definition),
        new(Saturate.Definition),
        new(Tape.Definition),
        new(Delay.Definition),
        new(Gain.Definition),
        new(Polarity.Definition),
        new(Dsp.Processors.Phase.Definition),
        new(Width.Definition),
    ];

    public static readonly NumberParameter Level = new("level_db", Unit.Decibels, -60, 24, 0, "How much louder or, below zero, softer the band is afterwards.");
    public static readonly ListParameter Through = new("through", Inner, "Processors of this band, in order. Each listens to its own band.") { IsRequired = false };

    private static readonly Parameter[] OfBand = [Level, Through];

    public static readonly ItemKind Low = new("low", "The lowest band.", OfBand);
    public static readonly ItemKind High = new("high", "The highest band.", OfBand);
    public static readonly ItemKind Mid = new("mid", "The middle one of three bands.", OfBand);
    public static readonly ItemKind LowMid = new("low_mid", "The second of four bands.", OfBand);
    public static readonly ItemKind HighMid = new("high_mid", "The third of four bands.", OfBand);

    public static readonly ListParameter In = new("in", [Low, High, Mid, LowMid, HighMid], "What happens in which band. A band that is not named stays as it is.");

    private const int StretchFrames = 1024;

    // Each side of a linear filter, in seconds.
    private const double LongestRing = 1;

    // Nearer to each other, a band between two splits would never be whole.
    private const double LeastRatio = 1.5;

    private readonly IBandSplit _split;
    private readonly BandLine[] _lines;
    private readonly double[][][] _bands;

    private Bands(Settings settings, ProcessorContext context)
    {
        var splits = Splits(settings, context.Format.SampleRate);
        var names = Names[splits.Length - 1];
        if (settings[In].FirstOrDefault(i => !names.Contains(i.Kind.Key)) is { } stray)
        {
            throw new SettingsException(In, FormattableString.Invariant($"With {splits.Length} of 'split_hz', 'split_2_hz' and 'split_3_hz' there are {names.Length} bands: {string.Join(", ", names)}. '{stray.Kind.Key}' is none of them."));
        }

        var slope = (int)settings[Slope];
        _split = settings[Phase] == "linear" ? Linear(splits, slope, context) : new SteepSplit(splits, slope, context.Format);
        _lines = [.. names.Select(name => new BandLine(name, [.. settings[In].Where(i => i.Kind.Key == name)], context with { KeyChannels = 0 }, _split.LatencyFrames))];
        _bands = [.. names.Select(_ => Enumerable.Range(0, context.Format.Channels).Select(_ => new double[StretchFrames]).ToArray())];
        var slowest = _lines.Max(l => l.LatencyFrames);
        foreach (var line in _lines)
        {
            line.WaitFor(slowest, context.Format.Channels);
        }

        LatencyFrames = _split.LatencyFrames + slowest;
        TailFrames = _split.TailFrames + _lines.Max(l => l.TailFrames);
        MemoryFrames = _split.TailFrames + _lines.Max(l => l.MemoryFrames);
        StepFrames = _lines.Aggregate(1, (steps, line) => BandLine.Together(steps, line.StepFrames));
        Reducers = [.. _lines.SelectMany(l => l.Reducers)];
    }

    public static ProcessorDefinition Definition { get; } = new(
        "bands",
        1,
        "Parts the signal into two to four bands with processors of their own.",
        [Split, Split2, Split3, Slope, Phase, In],
        static (settings, context) => new Bands(settings, context))
    {
        AlsoCalled = ["multiband", "crossover", "split"],
        IsNonLinear = true,
        IsCostly = true,
    };

    public int LatencyFrames { get; }

    public long TailFrames { get; }

    public long MemoryFrames { get; }

    public int StepFrames { get; }

    public IReadOnlyList<InnerReducer> Reducers { get; }

    /// <summary>For how many milliseconds before a hit the parting rings, down to 60 dB under the ring's loudest moment; 0 with minimum phase.</summary>
    public double PreRingMs => _split.PreRingMs;

    public void Process(AudioBlock block, AudioBlock key)
    {
        for (var frame = 0; frame < block.Frames; frame += StretchFrames)
        {
            var stretch = block.Slice(frame, Math.Min(StretchFrames, block.Frames - frame));
            _split.Split(stretch, _bands);
            for (var channel = 0; channel < stretch.Channels; channel++)
            {
                stretch[channel].Clear();
            }

            for (var band = 0; band < _lines.Length; band++)
            {
                _lines[band].AddTo(stretch, new AudioBlock(_bands[band], 0, stretch.Frames));
            }
        }
    }

    private static double[] Splits(Settings settings, int sampleRate)
    {
        var splits = new List<double>();
        foreach (var parameter in new[] { Split, Split2, Split3 })
        {
            if (settings.Find(parameter) is not { } freq)
            {
                continue;
            }

            BiquadDesign.CheckFrequency(freq, sampleRate, parameter);
            if (parameter == Split3 && splits.Count == 1)
            {
                throw new SettingsException(parameter, "'split_3_hz' makes a fourth band, so it wants 'split_2_hz' too.");
            }

            if (splits.Count > 0 && freq < LeastRatio * splits[^1])
            {
                throw new SettingsException(parameter, FormattableString.Invariant(
                    $"'{parameter.Key}' is {freq:0.###} Hz. The split before it is at {splits[^1]:0.###} Hz, so it must be at {LeastRatio * splits[^1]:0.###} Hz or above."));
            }

            splits.Add(freq);
        }

        return [.. splits];
    }

    private static LinearSplit Linear(double[] splits, int slope, ProcessorContext context)
    {
        var rate = context.Format.SampleRate;
        var designs = splits.Select(split => context.Designs.Of(
            new LinearKey(split, slope, rate),
            () => LinearDesign.Of(freq => CrossoverDesign.LevelBelow(freq / split, slope), rate, (int)(LongestRing * rate)) ?? throw new SettingsException(
                Phase, FormattableString.Invariant($"'phase' is linear, and the split at {split:0.###} Hz would have to begin more than half a second before a hit. Take a higher frequency, a slope of 24, or \"minimum\"."))));
        return new LinearSplit([.. designs], context.Format.Channels);
    }

    private sealed record LinearKey(double FreqHz, int Slope, int SampleRate);
}
