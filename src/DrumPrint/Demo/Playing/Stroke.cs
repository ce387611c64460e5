namespace DrumPrint.Demo.Playing;

/// <summary>What is struck, and how.</summary>
internal enum Stroke
{
    Kick,
    Backbeat,
    Ghost,
    RimClick,
    HatClosed,
    HatOpen,
    HatFoot,
    Rack,
    Floor,
    Ride,
    Crash,
    Sticks,
    Cabasa,
    Claps,
}
