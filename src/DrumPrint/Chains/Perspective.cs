namespace DrumPrint.Chains;

/// <summary>Whose left and right stereo prints have.</summary>
public enum Perspective
{
    /// <summary>The chain does not say.</summary>
    Unsaid,

    /// <summary>The drummer's.</summary>
    Drummer,

    /// <summary>Those of whoever faces the kit.</summary>
    Audience,
}
