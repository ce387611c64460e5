namespace DrumPrint.Listening;

/// <summary>What a microphone is for.</summary>
internal enum Role
{
    /// <summary>The name does not say.</summary>
    Unknown,
    Kick,
    Snare,
    Hat,
    RackTom,
    FloorTom,
    Ride,
    Cymbal,
    Overhead,

    /// <summary>In the room, away from the kit.</summary>
    Room,

    /// <summary>One microphone for the kit as a whole, near it: front, knee, mono.</summary>
    Kit,
    Percussion,

    /// <summary>Not of the kit: click, talkback, bass, guide.</summary>
    Other,
}

/// <summary>Where a microphone stands at its drum or in the room.</summary>
internal enum Standing
{
    /// <summary>The name does not say.</summary>
    Unknown,
    In,
    Out,
    Sub,
    Top,
    Under,
    Side,
    Near,
    Far,
}

/// <summary>Left or right, where a name says so.</summary>
internal enum Side
{
    /// <summary>Neither.</summary>
    None,
    Left,
    Right,
}
