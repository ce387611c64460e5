namespace DrumPrint.Demo.Kit;

/// <summary>Where on a drum a sound leaves it, or where beside a drum a microphone stands.</summary>
internal enum Face
{
    /// <summary>Free in the room.</summary>
    Open,

    /// <summary>Inside the kick's shell.</summary>
    InsideKick,

    /// <summary>In front of the kick's resonant head.</summary>
    KickFront,

    /// <summary>On the drummer's side of the kick's batter head.</summary>
    KickBack,

    /// <summary>At the vent in the snare's shell.</summary>
    SnareVent,

    /// <summary>Under the snare drum.</summary>
    UnderSnare,

    /// <summary>Under the floor tom.</summary>
    UnderFloor,
}
