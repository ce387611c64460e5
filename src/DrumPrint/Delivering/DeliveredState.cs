namespace DrumPrint.Delivering;

/// <summary>What became of a file since the delivery before.</summary>
public enum DeliveredState
{
    /// <summary>There was no delivery before, or the file is no sound.</summary>
    Unsaid,

    /// <summary>Other samples than before.</summary>
    Changed,

    /// <summary>The same samples, proved by their hash.</summary>
    Unchanged,

    /// <summary>Not there before.</summary>
    New,
}
