using DrumPrint.Audio;
using DrumPrint.Files;

namespace DrumPrint.Delivering;

/// <summary>What a delivery is made of, and where it goes.</summary>
public sealed record DeliveryOptions
{
    /// <summary>The folder that deliveries go to, each in a folder of its own.</summary>
    public required string To { get; init; }

    /// <summary>Where the prints lie; null for the folder beside the chain.</summary>
    public string? PrintsFolder { get; init; }

    /// <summary>The delivery it is held against; null for the last earlier one in <see cref="To"/>. Named, a folder with only what changed is made too.</summary>
    public string? Since { get; init; }

    /// <summary>Whether the dry twin of every processed print lies in it.</summary>
    public bool WithDry { get; init; }

    /// <summary>Whether the raw tracks lie in it.</summary>
    public bool WithRaw { get; init; }

    /// <summary>Whether the impulses lie in it whose licence permits that.</summary>
    public bool WithImpulses { get; init; }

    /// <summary>Whether stereo sounds become two mono files.</summary>
    public bool SplitsStereo { get; init; }

    /// <summary>Sample rate; null for that of the prints.</summary>
    public int? RateHz { get; init; }

    /// <summary>Word length; null for that of the prints.</summary>
    public SampleEncoding? Encoding { get; init; }

    /// <summary>Which files the chain may name.</summary>
    public ReadPolicy Reading { get; init; } = ReadPolicy.Default;

    /// <summary>Whether a zip file of the folder is made beside it.</summary>
    public bool Zips { get; init; }

    /// <summary>How a mixer reaches the user; null says nothing.</summary>
    public string? Contact { get; init; }

    /// <summary>How the user is to be credited; null says nothing.</summary>
    public string? Credit { get; init; }

    /// <summary>Lets tests stand in the way of a step.</summary>
    internal FileSteps Steps { get; init; } = FileSteps.Plain;
}
