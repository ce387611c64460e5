namespace DrumPrint.Demo.Kit;

/// <summary>The microphones of the session, in the order of the raw files.</summary>
internal static class Microphones
{
    private static readonly KitPoint SnareHead = Radiators.Snare.Surface;
    private static readonly KitPoint KickHead = Radiators.KickFront.Surface;
    private static readonly KitPoint MiddleOfKit = new(0.10, 0.20, 0.05);
    private static readonly KitPoint BetweenTheHands = new(-0.50, 1.94, 0.50);

    public static IReadOnlyList<KitMicrophone> All { get; } =
    [
        new(1, "KickIn", new(0.33, 0.36, -0.33), Radiators.KickInside.Surface, 0.5, -34.6) { Face = Face.InsideKick },
        new(2, "KickOut", new(0.36, 0.74, -0.31), KickHead, 0.5, -32.8) { Face = Face.KickFront },
        new(3, "KickSub", new(0.30, 0.80, -0.40), KickHead, 0.6, -29.5) { Face = Face.KickFront, IsInverted = true, IsLowTransducer = true },
        new(4, "SnareTop", new(0.00, 0.13, 0.06), SnareHead, 0.5, -34.6),
        new(5, "SnareVent", new(-0.19, 0.16, -0.08), Radiators.SnareVent.Surface, 0.5, -36.9) { Face = Face.SnareVent },
        new(6, "SnareBottom", new(0.02, 0.06, -0.26), Radiators.SnareUnder.Surface, 0.5, -41.6) { Face = Face.UnderSnare },
        new(7, "Hat", new(-0.50, 0.20, 0.40), Radiators.Hat.Surface, 0.5, -32.4),
        new(8, "RackTom", new(0.16, 0.56, 0.24), Radiators.Rack.Surface, 0.5, -32.8),
        new(9, "FloorTom", new(0.70, 0.16, 0.05), Radiators.Floor.Surface, 0.5, -28.9),
        new(10, "FloorTomUnder", new(0.64, 0.06, -0.56), Radiators.FloorUnder.Surface, 0.5, -33.8) { Face = Face.UnderFloor },
        new(11, "OHL", new(-0.47, -0.05, 0.94), MiddleOfKit, 0.5, -21.7),
        new(12, "OHR", new(0.55, -0.05, 0.90), MiddleOfKit, 0.5, -21.3),
        new(13, "Front", new(0.20, 1.60, -0.10), MiddleOfKit, 0.5, -22.0),
        new(14, "Knee", new(0.24, 0.06, -0.20), new(0.15, 0.30, -0.20), 0.7, -27.3),
        new(15, "NearRoomL", new(-0.90, 2.30, 0.20), MiddleOfKit, 1, -22.3),
        new(16, "NearRoomR", new(1.10, 2.26, 0.20), MiddleOfKit, 1, -23.4),
        new(17, "FarRoomL", new(-1.30, 4.60, 0.95), MiddleOfKit, 1, -20.7),
        new(18, "FarRoomR", new(1.50, 4.54, 0.95), MiddleOfKit, 1, -21.5),
        new(19, "HallMono", new(0.30, 6.05, 0.60), MiddleOfKit, 1, -11.5) { IsInHall = true },
        new(20, "Cabasa", new(0.60, 1.10, 0.50), Radiators.Cabasa.Surface, 0.5, -13.7) { Overdub = 1 },
        new(21, "Claps", new(-0.50, 1.20, 0.50), BetweenTheHands, 0.5, -17.3) { Overdub = 2 },
    ];
}
