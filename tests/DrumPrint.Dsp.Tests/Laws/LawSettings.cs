using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Dsp.Tests.Laws;

/// <summary>Makes settings for any definition from its declarations alone.</summary>
/// <remarks>Frequencies are kept below 0.45 of the sample rate, which a processor may refuse to exceed.</remarks>
internal sealed class LawSettings(int sampleRate)
{
    public const string ImpulseName = "test";
    private const int RandomItems = 4;

    /// <summary>Default, minimum and maximum of everything, then seeded random settings, each with a name.</summary>
    public IEnumerable<(string Name, Settings Settings)> For(ProcessorDefinition definition, int randomCount)
    {
        yield return ("default", Of(definition.Parameters, new Pick(Part: null, Noise: null)));
        yield return ("minimum", Of(definition.Parameters, new Pick(Part: 0, Noise: null)));
        yield return ("maximum", Of(definition.Parameters, new Pick(Part: 1, Noise: null)));
        for (var seed = 1; seed <= randomCount; seed++)
        {
            yield return ($"random {seed}", Of(definition.Parameters, new Pick(null, new Draws((ulong)seed))));
        }
    }

    /// <summary>Settings drawn with a seed.</summary>
    public Settings Drawn(ProcessorDefinition definition, ulong seed) => Of(definition.Parameters, new Pick(null, new Draws(seed)));

    public Settings Default(ProcessorDefinition definition) => For(definition, 0).First().Settings;

    private Settings Of(IReadOnlyList<Parameter> parameters, Pick pick) =>
        Settings.Of(parameters, parameters.Select(p => (Parameter: p, Value: Value(p, pick))).Where(v => v.Value is not null).Select(v => (v.Parameter, v.Value!)));

    private object? Value(Parameter parameter, Pick pick) => parameter switch
    {
        // The hashes of revisions stay as they were before it came.
        { IsLeftOutAtDefault: true } when pick.Noise is null => null,
        NumberParameter number => Number(number, pick),
        ChoiceParameter choice => pick switch
        {
            { Noise: { } noise } => choice.Choices[noise.Below(choice.Choices.Count)].Word,
            { Part: { } part } => choice.Choices[(int)(part * (choice.Choices.Count - 1))].Word,
            _ => choice.Default,
        },
        ToggleParameter toggle => pick switch
        {
            { Noise: { } noise } => noise.Below(2) == 1,
            { Part: { } part } => part == 1,
            _ => toggle.Default,
        },
        ImpulseParameter => ImpulseName,
        ListParameter list => Items(list, pick),
        _ => throw new NotSupportedException($"The laws do not know how to set a {parameter.GetType().Name}."),
    };

    private object? Number(NumberParameter number, Pick pick)
    {
        if (pick is { Part: null, Noise: null } && (number.Default is not null || !number.IsRequired))
        {
            return number.Default;
        }

        if (pick.Noise is { } noise && number is { Default: null, IsRequired: false } && noise.Below(2) == 0)
        {
            return null;
        }

        var part = pick.Noise?.Unit() ?? pick.Part ?? 0.5;
        if (number.Steps is { } steps)
        {
            return steps[Math.Min((int)(part * steps.Count), steps.Count - 1)];
        }

        var maximum = number.Unit == Unit.Hertz ? Math.Min(number.Maximum, 0.45 * sampleRate) : number.Maximum;
        return number.Unit == Unit.Hertz && number.Minimum > 0
            ? number.Minimum * Math.Pow(maximum / number.Minimum, part)
            : number.Minimum + (part * (maximum - number.Minimum));
    }

    // One of each kind, or a few drawn at random. Of processors it is only one where settings are not at their defaults: many in a row
    // may raise a tail without end.
    private List<Item> Items(ListParameter list, Pick pick) =>
        list.Kinds[0] is ProcessorKind && (pick.Noise?.Unit() ?? pick.Part) is { } place
            ? [new Item(list.Kinds[(int)(place * (list.Kinds.Count - 1))], Of(list.Kinds[(int)(place * (list.Kinds.Count - 1))].Parameters, pick))]
            : pick.Noise is { } noise
            ? [.. Enumerable.Range(0, 1 + noise.Below(RandomItems)).Select(_ => list.Kinds[noise.Below(list.Kinds.Count)]).Select(k => new Item(k, Of(k.Parameters, pick)))]
            : [.. list.Kinds.Select(k => new Item(k, Of(k.Parameters, pick)))];

    /// <summary>Where in each range to go: a part of it, or drawn at random, or the default.</summary>
    private sealed record Pick(double? Part, Draws? Noise);

    private sealed class Draws(ulong seed)
    {
        private readonly CounterNoise _noise = new(seed);
        private long _count;

        public double Unit() => _noise.Unit(_count++);

        public int Below(int limit) => (int)(Unit() * limit);
    }
}
