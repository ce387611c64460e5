using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Reading;

/// <summary>What a file gives for one <see cref="Shape"/>; a value that is wrong counts as given but is not held.</summary>
/// <param name="name">The name of the entry; empty where the shape has none.</param>
/// <param name="position">Where it starts: its name or, in a list, its bracket.</param>
/// <param name="place">Where it stands in the file's structure.</param>
internal sealed class Values(string name, Position position, string place)
{
    private readonly Dictionary<Parameter, (object? Value, Position At)> _given = [];
    private readonly HashSet<Parameter> _misspelt = [];

    public string Name { get; } = name;

    public Position Position { get; } = position;

    public string Place { get; } = place;

    /// <summary>Whether false stands in its place.</summary>
    public bool IsOff { get; set; }

    /// <summary>Whether a group of keys stands there, and not a short form or something wrong.</summary>
    public bool IsGroup { get; set; }

    /// <summary>Whether nothing is wrong with it.</summary>
    public bool IsSound { get; set; } = true;

    public void Add(Parameter parameter, object? value, Position at) => _given[parameter] = (value, at);

    public void AddMisspelt(Parameter parameter) => _misspelt.Add(parameter);

    /// <summary>Whether the key is not there, under a mistyped name neither: that is one mistake, not two.</summary>
    public bool Lacks(Parameter parameter) => !Has(parameter) && !_misspelt.Contains(parameter);

    /// <summary>Whether what the key should hold is not known, after a mistake that has been told. The key is mistyped, of the
    /// wrong kind, or left out although it must be there. What refers to it is no mistake of its own.</summary>
    public bool IsUnknown(Parameter parameter) => Has(parameter) ? _given[parameter].Value is null : parameter.IsRequired || _misspelt.Contains(parameter);

    /// <summary>Whether the file gives the key, rightly or wrongly.</summary>
    public bool Has(Parameter parameter) => _given.ContainsKey(parameter);

    /// <summary>Where the value stands; the start of the group when it is not given.</summary>
    public Position At(Parameter parameter) => _given.TryGetValue(parameter, out var given) ? given.At : Position;

    public string PlaceOf(Parameter parameter) => Json.JsonPlace.Key(Place, parameter.Key);

    /// <summary>The number given, or else the default; null when there is neither, or the one given is wrong.</summary>
    public double? Number(NumberParameter parameter) => Has(parameter) ? (double?)_given[parameter].Value : parameter.Default;

    public int Whole(NumberParameter parameter) => (int)Number(parameter)!.Value;

    public string? Text(TextParameter parameter) => Has(parameter) ? (string?)_given[parameter].Value : parameter.Default;

    public string Word(ChoiceParameter parameter) => (string?)Value(parameter) ?? parameter.Default;

    public bool IsOn(ToggleParameter parameter) => (bool?)Value(parameter) ?? parameter.Default;

    public TrackChannel? Channel(ChannelParameter parameter) => (TrackChannel?)Value(parameter);

    public MicrophonePlace? PlaceIn(PlaceParameter parameter) => (MicrophonePlace?)Value(parameter);

    public Values? Group(ShapeParameter parameter) => (Values?)Value(parameter);

    public IReadOnlyList<Values> Entries(NamedShapesParameter parameter) => (IReadOnlyList<Values>?)Value(parameter) ?? [];

    public IReadOnlyList<Values> Entries(ShapesParameter parameter) => (IReadOnlyList<Values>?)Value(parameter) ?? [];

    public IReadOnlyList<string> Texts(TextsParameter parameter) => (IReadOnlyList<string>?)Value(parameter) ?? [];

    public IReadOnlyList<StageValues> Stages(StagesParameter parameter) => (IReadOnlyList<StageValues>?)Value(parameter) ?? [];

    /// <summary>The values given for some parameters, all of them right.</summary>
    public IEnumerable<(Parameter Parameter, object Value)> Of(IEnumerable<Parameter> parameters) =>
        parameters.Where(Has).Select(p => (p, _given[p].Value!));

    private object? Value(Parameter parameter) => _given.TryGetValue(parameter, out var given) ? given.Value : null;
}
