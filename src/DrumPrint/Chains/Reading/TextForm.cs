using System.Globalization;
using DrumPrint.Chains.Format;
using DrumPrint.Chains.Json;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>A text in quotes, checked for what it stands for.</summary>
internal sealed class TextForm : ParameterForm<TextParameter, TextNode>
{
    public override string? LeftOut(Parameter parameter) => parameter.IsRequired ? null : "none";

    public override string? Example(Parameter parameter) => parameter is TextParameter { IsRequired: true, Kind: TextKind.Source } ? "\"other\"" : null;

    protected override object? Read(FormReader form, TextParameter parameter, TextNode node, Position keyAt, string place)
    {
        var text = node.Text;
        switch (parameter.Kind)
        {
            case TextKind.Source:
                return form.Refer(ReferenceKind.Source, text, node.Position, place);
            case TextKind.Bus:
                return form.Refer(ReferenceKind.Bus, text, node.Position, place);
        }

        if (Problem(parameter, text) is not { } problem)
        {
            return text;
        }

        form.Problem(node.Position, place, problem);
        return null;
    }

    protected override void Describe(SchemaWriter schema, TextParameter parameter)
    {
        schema.Plain(parameter, "string");
        var json = schema.Json;
        switch (parameter.Kind)
        {
            case TextKind.FileNamePart:
                json.WriteString("pattern", FileNames.Pattern);
                break;
            case TextKind.NamePattern:
                json.WriteString("pattern", NamePattern.Rule);
                break;
            case TextKind.Path:
                json.WriteString("pattern", @"^[^\\]+$");
                break;
            case TextKind.Metre:
                json.WriteString("pattern", "^([1-9]|[12][0-9]|3[0-2])/(1|2|4|8|16|32)$");
                break;
            case TextKind.Sha256:
                json.WriteString("pattern", "^[0-9a-f]{64}$");
                break;
            case TextKind.Title:
                json.WriteNumber("minLength", 1);
                break;
        }

        if (parameter.Default is { } value)
        {
            json.WriteString("default", value);
        }
    }

    protected override string Takes(TextParameter parameter) => parameter.Kind switch
    {
        TextKind.FileNamePart => $"text in quotes with {FileNames.Rule}",
        TextKind.NamePattern => $"a pattern in quotes, such as \"{NamePattern.OfPrints}\"",
        TextKind.Path => "the path of a file, in quotes",
        TextKind.Source => "the name of a track or bus, in quotes",
        TextKind.Bus => "the name of a bus, in quotes",
        TextKind.Metre => "a metre in quotes, such as \"4/4\"",
        TextKind.Sha256 => "a SHA-256 in quotes, 64 digits 0 to 9 and a to f",
        _ => "text in quotes",
    };

    private string? Problem(TextParameter parameter, string text) => parameter.Kind switch
    {
        _ when string.IsNullOrWhiteSpace(text) => $"'{parameter.Key}' is empty; it takes {Takes(parameter)}.",
        _ when ReadableText.Problem(text) is { } what => $"'{parameter.Key}' {what}",
        TextKind.FileNamePart when !FileNames.IsSafe(text) => UnsafeName(parameter.Key, text),
        TextKind.NamePattern when NamePattern.Problem(text) is { } what => $"'{parameter.Key}' is '{Show.Name(text)}', and {what}",
        TextKind.Path => PathProblem(parameter.Key, text),
        TextKind.Metre when !Metre.IsValid(text) =>
            $"'{Show.Name(text)}' is not a metre; it takes 1 to 32 beats over 1, 2, 4, 8, 16 or 32, such as \"4/4\".",
        TextKind.Sha256 when text.Length != 64 || !text.All(char.IsAsciiHexDigitLower) =>
            $"'{parameter.Key}' is '{Show.Name(text)}'; it takes {Takes(parameter)}.",
        _ => null,
    };

    /// <summary>What is wrong with a path; null for one that can be looked for.</summary>
    internal static string? PathProblem(string key, string text) => text.Contains('\\', StringComparison.Ordinal)
        ? $"'{key}' has a backslash. Between folders write / on every system: {Show.Name(text.Replace('\\', '/'))}."
        : null;

    private static string UnsafeName(string key, string text)
    {
        var safe = FileNames.Safe(text);
        var offer = safe.Length > 0 ? $" Try '{safe}'." : "";
        return $"'{key}' is '{Show.Name(text)}', but it becomes part of a file name: {FileNames.Rule}, up to {FileNames.Longest.ToString(CultureInfo.InvariantCulture)} characters.{offer}";
    }
}
