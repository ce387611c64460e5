namespace DrumPrint.Demo.Kit;

/// <summary>A place in the room in metres: x to the drummer's right, y away from the drummer, z up, from the centre of the
/// snare's batter head.</summary>
internal readonly record struct Place(double X, double Y, double Z)
{
    public double Length => Math.Sqrt(Dot(this, this));

    public Place Unit => this * (1 / Length);

    public static Place operator -(Place a, Place b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    public static Place operator *(Place a, double factor) => new(a.X * factor, a.Y * factor, a.Z * factor);

    public static double Dot(Place a, Place b) => (a.X * b.X) + (a.Y * b.Y) + (a.Z * b.Z);
}
