namespace DrumPrint.Checking.Takes;

/// <summary>What a file is for.</summary>
internal enum TakeKind
{
    /// <summary>A raw recording.</summary>
    Raw,

    /// <summary>A file of the delivery that plays.</summary>
    Print,

    /// <summary>A print with its fader down.</summary>
    Extra,

    /// <summary>The sum of the playing prints.</summary>
    Rough,

    /// <summary>The rough through the drum bus.</summary>
    RoughWithBus,

    Click,

    Impulse,

    /// <summary>The song's own mix, which is heard on the bench only.</summary>
    Reference,
}
