using DrumPrint.Demo.Kit;

namespace DrumPrint.Demo.Synthesis;

/// <summary>The cymbals of the kit, in each way they are played.</summary>
internal static class Cymbals
{
    public static Cymbal HatClosed { get; } = new("hat", Radiators.Hat)
    {
        Modes = 100,
        LowHz = 380,
        CentreHz = 6000,
        ModeLevel = 0.42,
        WashLevel = 0.26,
        WashRiseS = 0.0005,
        StickLevel = 0.22,
        DecayS = 0.24,
        Frames = 15600,
    };

    public static Cymbal HatOpen { get; } = new("hat", Radiators.Hat)
    {
        Modes = 100,
        LowHz = 380,
        CentreHz = 5000,
        ModeLevel = 0.52,
        WashLevel = 0.42,
        WashRiseS = 0.004,
        StickLevel = 0.20,
        DecayS = 1.1,
        Frames = 52800,
    };

    public static Cymbal HatFoot { get; } = new("hat", Radiators.Hat)
    {
        Modes = 100,
        LowHz = 380,
        CentreHz = 5000,
        ModeLevel = 0.14,
        WashLevel = 0.17,
        WashRiseS = 0.003,
        DecayS = 0.11,
        Frames = 7200,
    };

    public static Cymbal Ride { get; } = new("ride", Radiators.Ride)
    {
        Modes = 150,
        LowHz = 260,
        CentreHz = 3600,
        ModeLevel = 0.24,
        WashLevel = 0.07,
        WashRiseS = 0.06,
        StickLevel = 0.18,
        DecayS = 2.6,
        Frames = 120000,
    };

    public static Cymbal Crash { get; } = new("crash", Radiators.Crash)
    {
        Modes = 150,
        LowHz = 330,
        CentreHz = 4200,
        ModeLevel = 0.70,
        WashLevel = 0.60,
        WashRiseS = 0.012,
        StickLevel = 0.30,
        DecayS = 2.4,
        Frames = 115200,
    };
}
