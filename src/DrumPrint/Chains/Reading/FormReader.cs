using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>
/// Holds a file against the declarations of its keys and gathers every mistake that one value can show: unknown, double and
/// missing keys, wrong kinds, values out of range. What takes two values to see is for <see cref="ChainChecks"/>.
/// </summary>
internal sealed class FormReader
{
    private readonly ProblemList _problems;
    private readonly ItemReader _items;

    public FormReader(ProblemList problems, IReadOnlyList<ProcessorDefinition> catalogue)
    {
        _problems = problems;
        _items = new ItemReader(this, problems, catalogue);
    }

    /// <summary>Whether groups and lists that a whole chain must fill may be empty, as in a part of one.</summary>
    public bool AllowsEmpty { get; init; }

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
            case TextNode when shape.Shorthand is TextParameter:
            case NumberNode when shape.Shorthand is NumberParameter:
                Take(values, shape.Shorthand, node, node.Position, place);
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

    private void ReadKeys(Shape shape, ObjectNode group, Values values)
    {
        var seen = new Dictionary<string, Position>(StringComparer.Ordinal);
        foreach (var member in group.Members)
        {
            var place = Place.Key(values.Place, member.Name);
            if (!seen.TryAdd(member.Name, member.Position))
            {
                _problems.Add(member.Position, place, Twice(member.Name, seen[member.Name]));
            }
            else if (shape.Keys.FirstOrDefault(k => k.Key == member.Name) is { } parameter)
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

        foreach (var missing in shape.Keys.Where(k => k.IsRequired && values.Lacks(k)))
        {
            _problems.Add(values.Position, values.PlaceOf(missing), Wording.Missing(missing, shape));
        }
    }

    private void Take(Values values, Parameter parameter, TreeNode node, Position keyAt, string place) =>
        values.Add(parameter, Value(parameter, node, keyAt, place), node.Position);

    // The value, or null after telling what is wrong with it.
    private object? Value(Parameter parameter, TreeNode node, Position keyAt, string place)
    {
        switch (parameter, node)
        {
            case (NumberParameter, NumberNode number):
                return Checked(parameter, number.Number, node, place);
            case (ChoiceParameter choice, NumberNode number) when choice.Choices.Any(c => c.Word == Show.Number(number.Number)):
                return Show.Number(number.Number);
            case (ChoiceParameter, TextNode { Text: var word }) when word.Length > 0 && word.All(char.IsAsciiDigit):
                _problems.Add(node.Position, place, $"{Wording.WrongKind($"'{parameter.Key}'", node, Wording.Takes(parameter))} Write the bare number: {Show.Name(word)}.");
                return null;
            case (ChoiceParameter, TextNode text):
                return Checked(parameter, text.Text, node, place);
            case (ToggleParameter, ToggleNode toggle):
                return toggle.IsOn;
            case (ImpulseParameter, TextNode text):
                References.Add(new Reference(ReferenceKind.Impulse, text.Text, node.Position, place));
                return text.Text;
            case (TextParameter wanted, TextNode text):
                return Text(wanted, text, place);
            case (ListParameter list, ArrayNode array):
                return _items.Items(list, array, place);
            case (ShapeParameter inner, _):
                return Read(inner.Shape, node, keyAt, place, parameter.Key);
            case (NamedShapesParameter named, ObjectNode group):
                return Entries(named, group, keyAt, place);
            case (ShapesParameter shapes, ArrayNode array):
                return Entries(shapes, array, keyAt, place);
            case (TextsParameter, ArrayNode array) when array.Items.All(i => i is TextNode):
                return array.Items.Select(i => ((TextNode)i).Text).ToList();
            case (StagesParameter, ArrayNode array):
                return _items.Stages(array, place);
            default:
                _problems.Add(node.Position, place, Wording.WrongKind($"'{parameter.Key}'", node, Wording.Takes(parameter)) + Wording.Hint(node, parameter));
                return null;
        }
    }

    private object? Checked(Parameter parameter, object value, TreeNode node, string place)
    {
        if (parameter.Problem(value) is not { } problem)
        {
            return value;
        }

        var hint = (parameter, value) switch
        {
            (ChoiceParameter choice, string word) => Wording.DidYouMean(Nearest.Word(word, choice.Choices.Select(c => c.Word))),
            (NumberParameter { Unit: Unit.Hertz } number, double x) when x < number.Minimum && number.Problem(x * 1000) is null =>
                $" If kHz were meant: {Show.Number(x * 1000)}.",
            _ => "",
        };
        _problems.Add(node.Position, place, problem + hint);
        return null;
    }

    private string? Text(TextParameter parameter, TextNode node, string place)
    {
        var text = node.Text;
        switch (parameter.Kind)
        {
            case TextKind.Source:
                References.Add(new Reference(ReferenceKind.Source, text, node.Position, place));
                return text;
            case TextKind.Bus:
                References.Add(new Reference(ReferenceKind.Bus, text, node.Position, place));
                return text;
        }

        var problem = parameter.Kind switch
        {
            _ when string.IsNullOrWhiteSpace(text) => $"'{parameter.Key}' is empty; it takes {Wording.Takes(parameter)}.",
            TextKind.FileNamePart when !FileNames.IsSafe(text) => UnsafeName(parameter.Key, text),
            TextKind.Path when text.Contains('\\', StringComparison.Ordinal) =>
                $"'{parameter.Key}' has a backslash. Between folders write / on every system: {Show.Name(text.Replace('\\', '/'))}.",
            TextKind.Metre when !Metre.IsValid(text) =>
                $"'{Show.Name(text)}' is not a metre; it takes 1 to 32 beats over 1, 2, 4, 8, 16 or 32, such as \"4/4\".",
            TextKind.Sha256 when text.Length != 64 || !text.All(char.IsAsciiHexDigitLower) =>
                $"'{parameter.Key}' is '{Show.Name(text)}'; it takes {Wording.Takes(parameter)}.",
            _ => null,
        };
        if (problem is null)
        {
            return text;
        }

        _problems.Add(node.Position, place, problem);
        return null;
    }

    private List<Values> Entries(NamedShapesParameter parameter, ObjectNode group, Position keyAt, string place)
    {
        var entries = new List<Values>();
        var seen = new Dictionary<string, Position>(StringComparer.Ordinal);
        foreach (var member in group.Members)
        {
            var inner = Place.Key(place, member.Name);
            if (parameter.RefersToSources)
            {
                References.Add(new Reference(ReferenceKind.Source, member.Name, member.Position, inner));
            }
            else if (member.Name.Length == 0 || member.Name != member.Name.Trim() || member.Name.Any(char.IsControl))
            {
                _problems.Add(member.Position, inner, "a name must not be empty and must not start or end with a space.");
            }

            var entry = Read(parameter.Shape, member.Value, member.Position, inner, member.Name);
            if (seen.TryAdd(member.Name, member.Position))
            {
                entries.Add(entry);
            }
            else
            {
                _problems.Add(member.Position, inner, Twice(member.Name, seen[member.Name]));
            }
        }

        if (group.Members.Count == 0 && !AllowsEmpty && parameter.WhenEmpty is { } message)
        {
            _problems.Add(keyAt, place, message);
        }

        return entries;
    }

    private List<Values> Entries(ShapesParameter parameter, ArrayNode array, Position keyAt, string place)
    {
        if (array.Items.Count == 0 && !AllowsEmpty && parameter.WhenEmpty is { } message)
        {
            _problems.Add(keyAt, place, message);
        }

        return [.. array.Items.Select((item, i) => Read(parameter.Shape, item, item.Position, Place.Item(place, i)))];
    }

    private static string Unknown(Shape shape, string given, Parameter? meant)
    {
        var wrong = $"'{Show.Name(given)}' is not a {shape.KeyNoun} of {shape.Name}";
        return meant is null
            ? $"{wrong}; it takes {string.Join(", ", shape.Keys.Select(k => k.Key).Where(k => k != ChainKeys.Schema.Key))}."
            : $"{wrong}. Did you mean {KeyAdvice.Offer(meant, given)}?";
    }

    private static string Twice(string name, Position first) =>
        FormattableString.Invariant($"'{Show.Name(name)}' is given twice; the first is on line {first.Line}.");

    private static string UnsafeName(string key, string text)
    {
        var safe = FileNames.Safe(text);
        var offer = safe.Length > 0 ? $" Try '{safe}'." : "";
        return $"'{key}' is '{Show.Name(text)}', but it becomes part of a file name: {FileNames.Rule}, up to {FileNames.Longest.ToString(System.Globalization.CultureInfo.InvariantCulture)} characters.{offer}";
    }
}
