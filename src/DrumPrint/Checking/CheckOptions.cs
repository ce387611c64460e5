using DrumPrint.Files;

namespace DrumPrint.Checking;

/// <summary>How a check is run.</summary>
public sealed record CheckOptions
{
    /// <summary>What the chain may name.</summary>
    public ReadPolicy Reading { get; init; } = ReadPolicy.Default;

    /// <summary>Folder of the prints; null for <c>prints</c> beside the chain.</summary>
    public string? Prints { get; init; }

    /// <summary>Threads; null for one for each processor.</summary>
    public int? Threads { get; init; }

    /// <summary>Whether to take pictures of what is found.</summary>
    public bool HasPictures { get; init; }
}
