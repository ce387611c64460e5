using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp;

/// <summary>One kind of processor a chain can name, in one numbered sound.</summary>
public sealed class ProcessorDefinition
{
    private readonly Func<Settings, ProcessorContext, IProcessor> _create;

    /// <param name="key">The word a chain uses, snake_case.</param>
    /// <param name="revision">Number of this sound, from 1; a sound never changes under its number.</param>
    /// <param name="summary">One sentence, ending in a full stop.</param>
    /// <param name="parameters">Every parameter, in the order the reference shows them.</param>
    /// <param name="create">Makes the processor. Throws <see cref="SettingsException"/> for values that are each in range
    /// but do not go together.</param>
    public ProcessorDefinition(string key, int revision, string summary, IReadOnlyList<Parameter> parameters, Func<Settings, ProcessorContext, IProcessor> create)
    {
        ArgumentNullException.ThrowIfNull(parameters);
        if (parameters.Any(p => p is null))
        {
            throw new ArgumentException($"A parameter of '{key}' is declared below the definition that lists it.", nameof(parameters));
        }

        Key = key;
        Revision = revision;
        Summary = summary;
        Parameters = parameters;
        _create = create;
    }

    public string Key { get; }

    public int Revision { get; }

    public string Summary { get; }

    public IReadOnlyList<Parameter> Parameters { get; }

    /// <summary>Other words of the trade for it, in small letters, to answer those who use one.</summary>
    public IReadOnlyList<string> AlsoCalled { get; init; } = [];

    /// <summary>Whether the detector may listen to another track or bus.</summary>
    public bool TakesKey { get; init; }

    /// <summary>Whether it has nothing to do without one.</summary>
    public bool NeedsKey { get; init; }

    /// <summary>Whether the processor bends the signal, that is, is not linear at any level.</summary>
    public bool IsNonLinear { get; init; }

    /// <summary>Whether it takes many times as long to compute as to read its output from a disk. It does so when it works at a
    /// higher rate, or folds with an impulse.</summary>
    public bool IsCostly { get; init; }

    /// <summary>Whether, with these settings, no channel hears another, so that each may be rendered by itself, to the same bits. It is
    /// never so with a key.</summary>
    public Func<Settings, bool> HasSeparateChannels { get; init; } = static _ => false;

    /// <summary>Channels that come out for a given input.</summary>
    public Func<Settings, ProcessorContext, int> OutputChannels { get; init; } = static (_, context) => context.Format.Channels;

    /// <summary>This processor with settings, checked and defaults filled in: the words of a row.</summary>
    /// <param name="values">Values of some of its parameters.</param>
    /// <exception cref="SettingsException">A value is missing, not of this processor, of the wrong kind or out of range.</exception>
    public ProcessorStep With(params IEnumerable<(Parameter Parameter, object Value)> values) => new(this, Settings.Of(Key, Parameters, values));

    /// <summary>Makes a processor for one render.</summary>
    /// <exception cref="SettingsException">The settings are another processor's, or do not go together or with the render.</exception>
    /// <exception cref="ArgumentException">The signal has neither one nor two channels.</exception>
    public IProcessor Create(Settings settings, ProcessorContext context)
    {
        ArgumentNullException.ThrowIfNull(settings);
        ArgumentNullException.ThrowIfNull(context);
        settings.RequireFor(Key, Parameters);
        RequireMonoOrStereo(context.Format.Channels, "signal");
        if (context.KeyChannels > 0)
        {
            RequireMonoOrStereo(context.KeyChannels, "key");
        }

        return _create(settings, context);
    }

    private void RequireMonoOrStereo(int channels, string what)
    {
        if (channels is not (1 or 2))
        {
            throw new ArgumentException(FormattableString.Invariant($"'{Key}' takes one channel or two; the {what} has {channels}."));
        }
    }
}
