namespace DrumPrint.Delivering;

/// <summary>What a file of a delivery is.</summary>
public enum DeliveredKind
{
    /// <summary>A playing print, part of the unity sum.</summary>
    Playing,

    /// <summary>An extra, not in the unity sum.</summary>
    Optional,

    /// <summary>The sum of the playing prints.</summary>
    Rough,

    /// <summary>The rough through the drum bus.</summary>
    RoughWithBus,

    /// <summary>Clicks on the beats.</summary>
    Click,

    /// <summary>A print without its processing, not in the unity sum.</summary>
    Dry,

    /// <summary>A raw track, as it was recorded.</summary>
    Raw,

    /// <summary>An impulse response.</summary>
    Impulse,

    /// <summary>Bars, metres and tempi.</summary>
    Tempo,

    /// <summary>The sheet, in one of its three forms.</summary>
    Sheet,

    /// <summary>The page on which the delivered files are heard.</summary>
    Page,

    /// <summary>The ticket of the prints.</summary>
    Ticket,
}
