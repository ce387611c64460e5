using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>A list of texts.</summary>
internal sealed class TextsForm : ParameterForm<TextsParameter, ArrayNode>
{
    protected override object? Read(FormReader form, TextsParameter parameter, ArrayNode node, Position keyAt, string place)
    {
        if (!node.Items.All(i => i is TextNode))
        {
            return form.WrongKind(parameter, node, place);
        }

        List<string> texts = [.. node.Items.Select(i => ((TextNode)i).Text)];
        return parameter.ArePaths && Problem(parameter, texts) is { } problem ? form.Told(node.Position, place, problem) : texts;
    }

    protected override void Describe(SchemaWriter schema, TextsParameter parameter)
    {
        schema.Plain(parameter, "array");
        schema.Json.WriteStartObject("items");
        schema.Json.WriteString("type", "string");
        if (parameter.ArePaths)
        {
            schema.Json.WriteString("pattern", @"^[^\\]+$");
        }

        schema.Json.WriteEndObject();
        if (parameter.ArePaths)
        {
            schema.Json.WriteNumber("minItems", 2);
            schema.Json.WriteBoolean("uniqueItems", true);
        }
    }

    protected override string Takes(TextsParameter parameter) => parameter.ArePaths ? "a list of files in [ ]" : "a list of texts in [ ]";

    private static string? Problem(TextsParameter parameter, List<string> paths) => paths.Count switch
    {
        0 => $"'{parameter.Key}' names no file.",
        1 => $"'{parameter.Key}' is for several files of one take. Name this one in 'file'.",
        _ when paths.Select(p => ReadableText.Problem(p) is { } what ? $"'{parameter.Key}' {what}" : TextForm.PathProblem(parameter.Key, p)).FirstOrDefault(p => p is not null) is { } problem => problem,
        _ when paths.Exists(string.IsNullOrWhiteSpace) => $"'{parameter.Key}' has an empty name.",
        _ when paths.GroupBy(p => p, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice => $"'{parameter.Key}' names {Show.Name(twice.Key)} twice.",
        _ => null,
    };
}
