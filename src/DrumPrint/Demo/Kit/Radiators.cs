namespace DrumPrint.Demo.Kit;

/// <summary>Every sounding surface of the kit and of the two overdubs.</summary>
internal static class Radiators
{
    private static readonly KitPoint KickStrike = new(0.30, 0.26, -0.36);
    private static readonly KitPoint SnareStrike = new(0, 0, 0);
    private static readonly KitPoint UnderSnare = new(0, 0, -0.165);

    // In the shell's wall, half a head's width and the wall from the middle, towards the hat.
    private static readonly KitPoint SnareVentHole = new(-0.144, 0.121, -0.08);
    private static readonly KitPoint FloorStrike = new(0.60, 0, -0.06);

    public static Radiator KickInside { get; } = new("kick inside", KickStrike, KickStrike, Face.InsideKick);

    public static Radiator KickFront { get; } = new("kick front", KickStrike, new(0.30, 0.66, -0.36), Face.KickFront);

    public static Radiator KickBack { get; } = new("kick back", KickStrike, KickStrike, Face.KickBack);

    public static Radiator Snare { get; } = new("snare", SnareStrike);

    public static Radiator SnareVent { get; } = new("snare vent", SnareStrike, SnareVentHole, Face.SnareVent);

    public static Radiator SnareUnder { get; } = new("snare under", SnareStrike, UnderSnare, Face.UnderSnare);

    public static Radiator Wires { get; } = new("snare wires", SnareStrike, UnderSnare);

    public static Radiator Hat { get; } = new("hat", new(-0.40, 0.10, 0.24)) { IsPlate = true };

    public static Radiator Rack { get; } = new("rack tom", new(0.10, 0.42, 0.16));

    public static Radiator Floor { get; } = new("floor tom", FloorStrike);

    public static Radiator FloorUnder { get; } = new("floor tom under", FloorStrike, new(0.60, 0, -0.46), Face.UnderFloor);

    public static Radiator Ride { get; } = new("ride", new(0.66, 0.42, 0.36)) { IsPlate = true };

    public static Radiator Crash { get; } = new("crash", new(-0.34, 0.48, 0.58)) { IsPlate = true };

    public static Radiator Sticks { get; } = new("sticks", new(0.05, 0.05, 0.35));

    public static Radiator Cabasa { get; } = new("cabasa", new(0.60, 1.50, 0.50)) { Overdub = 1 };

    // Two people side by side, each 0.80 m from the microphone.
    public static Radiator ClapsLeft { get; } = new("claps left", new(-0.80, 1.94, 0.50)) { Overdub = 2 };

    public static Radiator ClapsRight { get; } = new("claps right", new(-0.20, 1.94, 0.50)) { Overdub = 2 };
}
