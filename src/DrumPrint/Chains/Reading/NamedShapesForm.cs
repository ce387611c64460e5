using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>A group of entries, each under a name.</summary>
internal sealed class NamedShapesForm : ParameterForm<NamedShapesParameter, ObjectNode>
{
    public override string? WhenEmpty(Parameter parameter) => ((NamedShapesParameter)parameter).WhenEmpty;

    // Of a list of names, the first of them stands in the sample.
    public override string Hint(Parameter parameter, TreeNode node)
    {
        var its = (NamedShapesParameter)parameter;
        if (node is not ArrayNode { Items: var items } || its.Sample is not { } sample)
        {
            return "";
        }

        var name = its.RefersToSources ? items.OfType<TextNode>().FirstOrDefault()?.Text : null;
        var entry = name is null ? sample : $"\"{Show.Name(name)}\"{sample[sample.IndexOf(':', StringComparison.Ordinal)..]}";
        return $" Such as \"{parameter.Key}\": {{ {entry} }}.";
    }

    protected override object? Read(FormReader form, NamedShapesParameter parameter, ObjectNode node, Position keyAt, string place)
    {
        var entries = new List<Values>();
        var seen = new Dictionary<string, Position>(StringComparer.Ordinal);
        foreach (var member in node.Members)
        {
            var inner = JsonPlace.Key(place, member.Name);
            if (parameter.RefersToSources)
            {
                form.Refer(ReferenceKind.Source, member.Name, member.Position, inner);
            }
            else if (member.Name.Length == 0 || member.Name != member.Name.Trim())
            {
                form.Problem(member.Position, inner, "a name must not be empty and must not start or end with a space.");
            }
            else if (ReadableText.Problem(member.Name) is { } what)
            {
                form.Problem(member.Position, inner, $"this name {what}");
            }

            var entry = form.Read(parameter.Shape, member.Value, member.Position, inner, member.Name);
            if (seen.TryAdd(member.Name, member.Position))
            {
                entries.Add(entry);
            }
            else
            {
                form.Problem(member.Position, inner, Wording.Twice(member.Name, seen[member.Name]));
            }
        }

        form.RequireEntries(node.Members.Count, parameter.WhenEmpty, keyAt, place);
        return entries;
    }

    protected override void Describe(SchemaWriter schema, NamedShapesParameter parameter)
    {
        schema.Plain(parameter, "object");
        schema.Reference("additionalProperties", SchemaWriter.Id(parameter.Shape));
        schema.Least("minProperties", parameter.WhenEmpty);
    }

    protected override string Takes(NamedShapesParameter parameter) => "a group in { } with one entry for each name";
}
