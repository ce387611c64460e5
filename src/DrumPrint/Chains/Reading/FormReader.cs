using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>
/// Holds a file against the declarations of its keys. It gathers every mistake that one value can show: unknown, double and
/// missing keys, wrong kinds, values out of range. What takes two values to see is for <see cref="ChainChecks"/>.
/// </summary>
internal sealed class FormReader
{
    private readonly ProblemList _problems;

    public FormReader(ProblemList problems, IReadOnlyList<ProcessorDefinition> catalogue)
    {
        _problems = problems;
        Items = new ItemReader(this, problems, catalogue);
    }

    /// <summary>Whether groups and lists that a whole chain must fill may be empty, as in a part of one.</summary>
    public bool AllowsEmpty { get; init; }

    /// <summary>Reads lists whose items each name what they are.</summary>
    public ItemReader Items { get; }

    /// <summary>Every name that must be declared somewhere.</summary>
    public List<Reference> References { get; } = [];

    /// <summary>Reads what stands for a shape.</summary>
    /// <param name="shape">The declaration.</param>
    /// <param name="node">What stands there.</param>
    /// <param name="at">Where it starts: its key or, in a list, its bracket.</param>
    /// <param name="place">Where it stands in the file's structure.</param>
    /// <param name="name">Its key or name; empty in a list.</param>
    public Values Read(Shape shape, TreeNode node, Position at, string place, string name = "")
    {
        var before = _problems.Count;
        var values = new Values(name, at, place);
        switch (node)
        {
            case ObjectNode group:
                values.IsGroup = true;
                ReadKeys(shape, group, values);
                break;
            case ToggleNode toggle when shape.CanBeSwitched:
                values.IsOff = !toggle.IsOn;
                break;
            case var _ when shape.Shorthand is { } shorthand && ParameterForms.Of(shorthand).Fits(node):
                Take(values, shorthand, node, node.Position, place);
                break;
            default:
                var subject = name.Length > 0 ? $"'{Show.Name(name)}'" : "this";
                var hint = shape.Shorthand is { } key ? Wording.Hint(node, key) : "";
                _problems.Add(node.Position, place, Wording.WrongKind(subject, node, Wording.Takes(shape)) + hint);
                break;
        }

        values.IsSound = _problems.Count == before;
        return values;
    }

    /// <summary>Tells of something that is wrong.</summary>
    public void Problem(Position at, string place, string message) => _problems.Add(at, place, message);

    /// <summary>Tells that a value is of the wrong kind; there is none to go on with.</summary>
    public object? WrongKind(Parameter parameter, TreeNode node, string place)
    {
        _problems.Add(node.Position, place, Wording.WrongKind($"'{parameter.Key}'", node, Wording.Takes(parameter)) + Wording.Hint(node, parameter));
        return null;
    }

    /// <summary>Tells of something that is wrong; there is no value to go on with.</summary>
    public object? Told(Position at, string place, string message)
    {
        _problems.Add(at, place, message);
        return null;
    }

    /// <summary>A value its declaration allows, or null after telling what is wrong with it.</summary>
    public object? Checked(Parameter parameter, object value, TreeNode node, string place)
    {
        if (parameter.Problem(value) is not { } problem)
        {
            return value;
        }

        _problems.Add(node.Position, place, problem + ParameterForms.Of(parameter).Hint(parameter, value));
        return null;
    }

    /// <summary>Notes a name that must be declared somewhere, and gives it back.</summary>
    public string Refer(ReferenceKind kind, string name, Position at, string place)
    {
        References.Add(new Reference(kind, name, at, place));
        return name;
    }

    /// <summary>Tells what to say when a whole chain must have entries here and has none.</summary>
    public void RequireEntries(int count, string? whenEmpty, Position at, string place)
    {
        if (count == 0 && !AllowsEmpty && whenEmpty is not null)
        {
            _problems.Add(at, place, whenEmpty);
        }
    }

    private void ReadKeys(Shape shape, ObjectNode group, Values values)
    {
        var seen = new Dictionary<string, Position>(StringComparer.Ordinal);
        foreach (var member in group.Members)
        {
            var place = JsonPlace.Key(values.Place, member.Name);
            if (!seen.TryAdd(member.Name, member.Position))
            {
                _problems.Add(member.Position, place, Wording.Twice(member.Name, seen[member.Name]));
            }
            else if (shape.Find(member.Name) is { } parameter)
            {
                Take(values, parameter, member.Value, member.Position, place);
            }
            else if (shape.Refusals.TryGetValue(member.Name, out var refusal))
            {
                _problems.Add(member.Position, place, refusal);
            }
            else
            {
                var key = KeyAdvice.Meant(member.Name, shape.Keys);
                _problems.Add(member.Position, place, Unknown(shape, member.Name, key));
                if (key is not null)
                {
                    values.AddMisspelt(key);
                }
            }
        }

        OneOf(shape, values);
        foreach (var missing in shape.Keys.Where(k => k.IsRequired && values.Lacks(k) && !(shape.Lender is { } lender && values.Has(lender) && shape.Lent.Contains(k))))
        {
            _problems.Add(values.Position, values.PlaceOf(missing), Wording.Missing(missing, shape));
        }
    }

    private void OneOf(Shape shape, Values values)
    {
        var given = shape.OneOf.Where(values.Has).OrderBy(p => values.At(p).Line).ThenBy(p => values.At(p).Column).ToList();
        if (given.Count > 1)
        {
            _problems.Add(values.At(given[1]), values.PlaceOf(given[1]), $"{shape.Name} has {Show.List([.. shape.OneOf.Select(p => $"'{p.Key}'")], "or")}, not both. Keep one.");
        }
        else if (shape.OneOf.Count > 0 && shape.OneOf.All(values.Lacks))
        {
            _problems.Add(values.Position, values.PlaceOf(shape.OneOf[0]), Wording.Missing(shape.OneOf[0], shape));
        }
    }

    private void Take(Values values, Parameter parameter, TreeNode node, Position keyAt, string place) =>
        values.Add(parameter, Value(parameter, node, keyAt, place), node.Position);

    private object? Value(Parameter parameter, TreeNode node, Position keyAt, string place) =>
        ParameterForms.Of(parameter).Read(this, parameter, node, keyAt, place);

    private static string Unknown(Shape shape, string given, Parameter? meant)
    {
        var wrong = $"'{Show.Name(given)}' is not a {shape.KeyNoun} of {shape.Name}";
        return meant is null
            ? $"{wrong}; it takes {string.Join(", ", shape.Keys.Select(k => k.Key).Where(k => k != ChainKeys.Schema.Key))}."
            : $"{wrong}. Did you mean {KeyAdvice.Offer(meant, given)}?";
    }
}
