namespace DrumPrint.Delivering;

/// <summary>What a finding is of.</summary>
public enum DeliveryFindingKind
{
    /// <summary>A file is not there.</summary>
    Missing,

    /// <summary>A file is there under another name.</summary>
    Renamed,

    /// <summary>A file is shorter than it was.</summary>
    Shortened,

    /// <summary>The samples are others.</summary>
    Changed,

    /// <summary>The samples are the same; what stands before or after them is not.</summary>
    HeaderChanged,

    /// <summary>A file is there that was not delivered.</summary>
    Extra,

    /// <summary>The delivery contradicts itself.</summary>
    Contradiction,
}

/// <summary>One thing that is not as it should be.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="File">The file it is about.</param>
/// <param name="Text">What is wrong, in a sentence or two.</param>
public sealed record DeliveryFinding(DeliveryFindingKind Kind, string File, string Text);
