namespace DrumPrint.Chains.Json;

/// <summary>A value of a JSON file and where it starts.</summary>
internal abstract record TreeNode(Position Position);

/// <summary>Keys and values in file order; a key may occur twice here, which is for the reader of the meaning to refuse.</summary>
internal sealed record ObjectNode(Position Position, IReadOnlyList<Member> Members) : TreeNode(Position);

/// <summary>A key of an object, where it starts, and its value.</summary>
internal sealed record Member(string Name, Position Position, TreeNode Value);

internal sealed record ArrayNode(Position Position, IReadOnlyList<TreeNode> Items) : TreeNode(Position);

internal sealed record TextNode(Position Position, string Text) : TreeNode(Position);

internal sealed record NumberNode(Position Position, double Number) : TreeNode(Position);

internal sealed record ToggleNode(Position Position, bool IsOn) : TreeNode(Position);

internal sealed record EmptyNode(Position Position) : TreeNode(Position);
