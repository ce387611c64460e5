using DrumPrint.Dsp.Parameters;
using DrumPrint.Dsp.Tests.Support;

namespace DrumPrint.Dsp.Tests.Laws;

/// <summary>One definition with one group of settings for one kind of signal: what a law is held against.</summary>
internal sealed class LawCase
{
    private const int ImpulseFrames = 700;
    private const int Frames = 1 << 20;
    private const int MostAttempts = 24;

    private readonly ProcessorDefinition _definition;
    private readonly ProcessorContext _context;

    private LawCase(ProcessorDefinition definition, string name, Settings settings, ProcessorContext context)
    {
        (_definition, Name, Settings, _context) = (definition, name, settings, context);
        Outputs = definition.OutputChannels(settings, context);
    }

    public string Name { get; }

    public Settings Settings { get; }

    public int Inputs => _context.Format.Channels;

    public int KeyChannels => _context.KeyChannels;

    public int Outputs { get; }

    /// <summary>Every group of settings, mono and stereo, without and with an external key where one is taken.
    /// What the processor refuses to be made with is left out.</summary>
    public static IReadOnlyList<LawCase> All(ProcessorDefinition definition, int randomCount = 4, int sampleRate = Support.Run.SampleRate, int[]? channels = null, int frames = Frames)
    {
        var cases = new List<LawCase>();
        var designs = new DesignMemory();
        var refused = new List<string>();
        var impulses = Impulses(sampleRate);
        foreach (var (name, settings) in new LawSettings(sampleRate).For(definition, randomCount))
        {
            foreach (var count in channels ?? [1, 2])
            {
                foreach (var keyChannels in definition.TakesKey ? new[] { 0, 1, 2 } : [0])
                {
                    var context = new ProcessorContext(new AudioFormat(sampleRate, count), frames, keyChannels, impulses) { Designs = designs };
                    var full = $"{definition.Key}, {name}, {count} channels, {keyChannels} key channels, {sampleRate} Hz";
                    var accepted = Accepted(definition, settings, context, out var problem);
                    if (accepted is null)
                    {
                        refused.Add($"{full}: {problem}");
                    }
                    else
                    {
                        cases.Add(new LawCase(definition, full, accepted, context));
                    }
                }
            }
        }

        return cases.Count > 0 && cases.Count * 2 >= refused.Count
            ? cases
            : throw new InvalidOperationException("Too many refusals: " + string.Join(Environment.NewLine, refused));
    }

    /// <summary>Settings drawn with a seed, stereo; null when the processor refuses them.</summary>
    public static LawCase? Drawn(ProcessorDefinition definition, ulong seed, int sampleRate)
    {
        var context = new ProcessorContext(new AudioFormat(sampleRate, 2), Frames, definition.TakesKey ? (int)(seed % 3) : 0, Impulses(sampleRate));
        return Accepted(definition, new LawSettings(sampleRate).Drawn(definition, seed), context, out _) is { } settings
            ? new LawCase(definition, $"{definition.Key}, seed {seed}, {sampleRate} Hz", settings, context)
            : null;
    }

    public IProcessor Create() => _definition.Create(Settings, _context);

    /// <summary>Runs the case over a signal, its channels and those of the key being the first of those given.</summary>
    public double[][] Run(double[][] input, int blockFrames = 480, double[][]? key = null, int extraFrames = 0) =>
        Support.Run.Through(Create(), input[..Inputs], Outputs, blockFrames, extraFrames, _context.KeyChannels == 0 ? null : (key ?? input)[.._context.KeyChannels]);

    /// <summary>What a processor made for one channel, with the same settings, makes of it.</summary>
    public double[] OfOneChannel(double[] input) =>
        Support.Run.Through(_definition.Create(Settings, _context with { Format = _context.Format with { Channels = 1 } }), [input], 1, 480, 0, null)[0];

    // Settings the processor can be made with: one that it names as not fitting the others goes back to its default,
    // and a list goes on without its last item.
    private static Settings? Accepted(ProcessorDefinition definition, Settings settings, ProcessorContext context, out string problem)
    {
        problem = "";
        for (var attempt = 0; attempt <= MostAttempts; attempt++)
        {
            try
            {
                definition.Create(settings, context);
                return settings;
            }
            catch (SettingsException refusal)
            {
                problem = refusal.Message;
                if (refusal.Parameter is ListParameter list && settings[list] is { Count: > 0 } items)
                {
                    settings = settings.With(list, items.Take(items.Count - 1).ToList());
                    continue;
                }

                if (refusal.Parameter is not { IsRequired: false } culprit || !definition.Parameters.Contains(culprit))
                {
                    return null;
                }

                settings = Settings.Of(definition.Parameters, definition.Parameters.Where(p => p != culprit && settings.Raw(p) is not null).Select(p => (p, settings.Raw(p)!)));
            }
        }

        return null;
    }

    private static Dictionary<string, Impulse> Impulses(int sampleRate)
    {
        var response = Signals.Hits(ImpulseFrames, every: ImpulseFrames, decayFrames: 100, seed: 7, level: 0.3);
        response[0] = 1;
        return new() { [LawSettings.ImpulseName] = new Impulse(LawSettings.ImpulseName, sampleRate, ImpulseLayout.Mono, [response]) };
    }
}
