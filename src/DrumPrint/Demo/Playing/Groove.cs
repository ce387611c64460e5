namespace DrumPrint.Demo.Playing;

/// <summary>What one bar asks for: a line for each stroke, a character for each sixteenth.</summary>
/// <remarks>X full, x a little softer, o soft, g a ghost note, . nothing.</remarks>
internal sealed record Groove(params (Stroke Stroke, string Line)[] Lines)
{
    private const string Eighths = "X.x.X.x.X.x.X.x.";
    private const string TwoAndFour = "....X.......X...";

    private static readonly Groove CountIn = new(
        (Stroke.Sticks, "X...X...X...X..."));

    private static readonly Groove Intro = new(
        (Stroke.HatClosed, Eighths),
        (Stroke.Backbeat, TwoAndFour),
        (Stroke.Kick, "X.......x.x....."));

    private static readonly Groove VerseA = new(
        (Stroke.HatClosed, Eighths),
        (Stroke.Backbeat, TwoAndFour),
        (Stroke.Ghost, ".......g.g.g...g"),
        (Stroke.Kick, "X.....x.X.x....."));

    private static readonly Groove VerseB = VerseA.With(
        (Stroke.Ghost, "...g...g.g.....g"));

    private static readonly Groove Pre = new(
        (Stroke.HatClosed, "X.x.X.x.X.x.X..."),
        (Stroke.HatOpen, "..............x."),
        (Stroke.Backbeat, TwoAndFour),
        (Stroke.Kick, "X...X...X...X..."));

    private static readonly Groove PreLift = Pre.With(
        (Stroke.Backbeat, "X...X...X...X..."));

    private static readonly Groove Fill = new(
        (Stroke.Rack, "XxXx...."),
        (Stroke.Floor, "....XxXX"),
        (Stroke.Kick, "X...x..."));

    private static readonly Groove Chorus = new(
        (Stroke.HatOpen, Eighths),
        (Stroke.Backbeat, TwoAndFour),
        (Stroke.Kick, "X..x..x.X.x....."),
        (Stroke.Cabasa, "X.xoX.xoX.xoX.xo"),
        (Stroke.Claps, "....X.......X.x."));

    private static readonly Groove Bridge = new(
        (Stroke.HatClosed, "x.o.x.o.x.o.x.o."),
        (Stroke.RimClick, "....X..x..x.X..."),
        (Stroke.Kick, "X.......x......."));

    private static readonly Groove LastChorus = Chorus.With(
        (Stroke.HatOpen, "................"),
        (Stroke.HatFoot, TwoAndFour),
        (Stroke.Ride, Eighths),
        (Stroke.Kick, "X..x....X.x....."));

    private static readonly Groove LastChorusLift = LastChorus.With(
        (Stroke.Backbeat, "X...X...X...X..."),
        (Stroke.Kick, "..x...x...x...x."));

    private static readonly Groove Outro = new(
        (Stroke.HatFoot, TwoAndFour),
        (Stroke.Ride, Eighths),
        (Stroke.Backbeat, TwoAndFour),
        (Stroke.Kick, "X..x....X.x....."));

    private static readonly Groove[] TomFigure =
    [
        new((Stroke.Rack, "X.x.....X.x....."), (Stroke.Floor, "....X.x.....X.xx")),
        new((Stroke.Rack, "X.x.....X......."), (Stroke.Floor, "....X.x...x....."), (Stroke.Backbeat, "............X..."), (Stroke.Kick, "X...............")),
        new((Stroke.Rack, "X..x..X........."), (Stroke.Floor, "........X..x..X.")),
        new((Stroke.Floor, "....x...X......."), (Stroke.Backbeat, "X..............."), (Stroke.Kick, "X...............")),
    ];

    /// <summary>The groove of a bar of the song.</summary>
    public static Groove OfBar(int bar) => bar switch
    {
        1 => new Groove(),
        2 => CountIn,
        <= 6 => Intro,
        <= 18 => bar % 2 == 1 ? VerseA : VerseB,
        21 or 45 => PreLift,
        22 or 46 => Fill,
        <= 20 => Pre,
        <= 30 => Chorus,
        <= 42 => bar % 2 == 1 ? VerseA : VerseB,
        <= 44 => Pre,
        <= 54 => Chorus,
        <= 62 => Bridge,
        <= 70 => LastChorus,
        <= 78 => LastChorusLift,
        <= 80 => Outro,
        _ => TomFigure[bar - 81],
    };

    private Groove With(params (Stroke Stroke, string Line)[] changed) =>
        new([.. Lines.Where(l => changed.All(c => c.Stroke != l.Stroke)), .. changed]);
}
