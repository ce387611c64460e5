namespace DrumPrint.Files;

/// <summary>Which files a chain may name. Sessions come by mail, and a chain can name any file of whoever prints it. So what lies
/// outside its session is read only where the user has said so.</summary>
/// <remarks>A session is the folder of the chain, and of a path that begins with one <c>../</c> the folder around that. What counts is
/// where a file really lies, links followed.</remarks>
public sealed record ReadPolicy
{
    /// <summary>Nothing outside the session is read.</summary>
    public static ReadPolicy Default { get; } = new();

    /// <summary>Whether a chain may name files anywhere.</summary>
    public bool AllowsOutside { get; init; }

    /// <summary>Folders outside the session that chains may name files in, and in all folders below; whole paths.</summary>
    public IReadOnlyList<string> Folders { get; init; } = [];
}
