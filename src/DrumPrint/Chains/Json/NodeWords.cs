using DrumPrint.Language;

namespace DrumPrint.Chains.Json;

/// <summary>Names values of a JSON file as a person would.</summary>
internal static class NodeWords
{
    /// <summary>What kind of value stands there.</summary>
    public static string Kind(TreeNode node) => node switch
    {
        TextNode text => $"the text \"{Show.Name(text.Text)}\"",
        NumberNode number => $"the number {Show.Number(number.Number)}",
        ToggleNode toggle => toggle.IsOn ? "true" : "false",
        EmptyNode => "null",
        ArrayNode => "a list in [ ]",
        _ => "a group in { }",
    };
}
