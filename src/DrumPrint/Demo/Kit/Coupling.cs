namespace DrumPrint.Demo.Kit;

/// <summary>What stands between a surface and a microphone: shells and heads that take level and top away.</summary>
/// <param name="Db">Level, 0 or below; −∞ when nothing comes through.</param>
/// <param name="TopHz">Highest frequency that still comes through.</param>
internal readonly record struct Coupling(double Db, double TopHz)
{
    private static readonly Coupling Free = new(0, 20000);
    private static readonly Coupling None = new(double.NegativeInfinity, 0);

    public bool IsHeard => !double.IsNegativeInfinity(Db);

    public static Coupling Between(Radiator radiator, KitMicrophone microphone)
    {
        if (radiator.Overdub != microphone.Overdub)
        {
            return None;
        }

        return (radiator.Face, microphone.Face) switch
        {
            (Face.InsideKick, Face.InsideKick) => Free,
            (Face.InsideKick, _) or (Face.KickFront or Face.KickBack, Face.InsideKick) or (Face.KickBack, Face.KickFront) => None,
            (Face.SnareVent, Face.SnareVent) => Free,
            (Face.SnareVent, _) => None,
            (_, Face.InsideKick) => new(-14, 2500),
            (Face.UnderSnare, Face.UnderSnare) => Free,
            (Face.UnderSnare, _) => None,
            (Face.UnderFloor, Face.UnderFloor) => Free,
            (Face.UnderFloor, _) => None,
            _ when radiator == Radiators.Wires => microphone.Face == Face.UnderSnare ? Free : new(-8, 14000),
            _ when radiator == Radiators.Snare && microphone.Face == Face.UnderSnare => new(-20, 4000),
            _ when radiator == Radiators.Snare && microphone.Face == Face.SnareVent => new(-7, 5000),
            _ when radiator == Radiators.Floor && microphone.Face == Face.UnderFloor => new(-20, 3000),
            _ when radiator.IsPlate && microphone.Face is Face.UnderSnare or Face.UnderFloor or Face.KickFront => new(-6, 9000),
            _ => Free,
        };
    }
}
