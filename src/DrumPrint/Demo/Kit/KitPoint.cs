namespace DrumPrint.Demo.Kit;

/// <summary>A place in the room in metres, from the centre of the snare's batter head: x to the drummer's right, y away
/// from the drummer, z up.</summary>
internal readonly record struct KitPoint(double X, double Y, double Z)
{
    public double Length => Math.Sqrt(Dot(this, this));

    public KitPoint Unit => this * (1 / Length);

    public static KitPoint operator -(KitPoint a, KitPoint b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    public static KitPoint operator *(KitPoint a, double factor) => new(a.X * factor, a.Y * factor, a.Z * factor);

    public static double Dot(KitPoint a, KitPoint b) => (a.X * b.X) + (a.Y * b.Y) + (a.Z * b.Z);
}
