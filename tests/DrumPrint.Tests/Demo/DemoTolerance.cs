namespace DrumPrint.Tests.Demo;

/// <summary>Every tolerance of these tests, each with its reason.</summary>
internal static class DemoTolerance
{
    /// <summary>A lag found by correlation, in frames: other sounds and the first echo reach into every window.</summary>
    public const double LagFrames = 0.5;

    /// <summary>The same below 100 Hz, where a period is a thousand frames long and a transducer turns the phase.</summary>
    public const double LowLagFrames = 2.5;

    /// <summary>The vent's lag behind the batter head: its air rings near 440 Hz, where a tenth of a period is eleven frames.</summary>
    public const double VentLagFrames = 5;

    /// <summary>Raw peaks against the session's plan, in dB: preamps are set once and the playing varies.</summary>
    public const double PeakDb = 1.5;

    /// <summary>Distances are given to a centimetre.</summary>
    public const double DistanceM = 0.0051;

    /// <summary>Decay of rooms made of noise, as a part: what a room's own name promises, no more.</summary>
    public const double RoomDecay = 0.20;

    /// <summary>Decay of the chamber, as a part. Borrowed: ISO 3382-1, table A.1 gives 5 % as the smallest difference people hear
    /// of the early decay time; here it holds for T30.</summary>
    public const double ChamberDecay = 0.05;

    /// <summary>Spill of hits between other hits, in dB. Own bar: a mean of five hits or more, each with the ends of other drums
    /// under it, comes no closer.</summary>
    public const double SpillDb = 1.5;
}
