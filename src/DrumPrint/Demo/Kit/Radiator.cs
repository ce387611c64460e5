namespace DrumPrint.Demo.Kit;

/// <summary>A surface that sounds.</summary>
/// <param name="Name">For people.</param>
/// <param name="Strike">Where it is struck: distances from here give the time a sound takes to a microphone.</param>
/// <param name="Surface">Where it radiates: distances from here give the level.</param>
/// <param name="Face">The side of the drum it is on.</param>
/// <param name="IsPlate">Whether it is a cymbal, weaker towards its edge.</param>
/// <param name="Overdub">0 on the kit; each overdub has a number of its own and is heard by its own microphone only.</param>
internal sealed record Radiator(string Name, KitPoint Strike, KitPoint Surface, Face Face = Face.Open, bool IsPlate = false, int Overdub = 0)
{
    public Radiator(string name, KitPoint strike)
        : this(name, strike, strike)
    {
    }
}
