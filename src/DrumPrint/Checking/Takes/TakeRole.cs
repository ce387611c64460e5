namespace DrumPrint.Checking.Takes;

/// <summary>What a microphone stands at, as far as its name tells.</summary>
internal enum TakeRole
{
    Unknown,
    Kick,
    Snare,
    SnareUnder,
    Hat,
    Tom,
    TomUnder,
    Overhead,
    Room,

    /// <summary>Hears the kit from somewhere else.</summary>
    Kit,

    /// <summary>Played at another time, or no part of the kit.</summary>
    Overdub,
}
