namespace DrumPrint.Chains;

/// <summary>How much a print matters to the mixer.</summary>
public enum PrintKeep
{
    /// <summary>The chain says nothing of it.</summary>
    Unsaid,

    /// <summary>The kit is not itself without it.</summary>
    Must,

    /// <summary>Nice to have.</summary>
    Nice,

    /// <summary>Left out first when it is crowded.</summary>
    FirstOut,
}
