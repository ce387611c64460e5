namespace DrumPrint.Session;

/// <summary>What a file beside the others is.</summary>
public enum PrintKind
{
    /// <summary>A playing print, part of the rough.</summary>
    Playing,

    /// <summary>An extra with its fader down.</summary>
    Optional,

    /// <summary>The sum of the playing prints.</summary>
    Rough,

    /// <summary>The rough through the drum bus.</summary>
    RoughWithBus,

    /// <summary>Clicks on the beats.</summary>
    Click,
}
