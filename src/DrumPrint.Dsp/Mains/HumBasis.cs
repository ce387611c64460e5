using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Mains;

/// <summary>Cosines and sines of the harmonics over one period, and the window that a stretch is looked at through.</summary>
/// <remarks>A stretch is ten periods under a Hann window. So every harmonic has its own place in the spectrum, ten apart, and three to either
/// side of it there is none of the hum: what sounds there is the drums. Never written to after it is made.</remarks>
internal sealed class HumBasis
{
    /// <summary>Periods from one stretch to the next. A stretch has twice as many.</summary>
    public const int PeriodsPerStep = 5;

    /// <summary>Steps of a stretch.</summary>
    public const int StepsPerLook = 2;

    /// <summary>What the change of a sine beside its place reads, a quarter of a turn late: for a turn over the stretch so many times the
    /// sine. With it, noise reads the same in both.</summary>
    public const double ChangePerTurn = 1.7320508075688772;

    // How far beside a harmonic the drums are listened to.
    private const int Beside = 3;

    /// <param name="period">Frames of a period.</param>
    /// <param name="harmonics">How many.</param>
    public HumBasis(int period, int harmonics)
    {
        (Period, Step) = (period, PeriodsPerStep * period);
        (Cosines, Sines) = (new double[harmonics][], new double[harmonics][]);
        for (var h = 0; h < harmonics; h++)
        {
            (Cosines[h], Sines[h]) = (new double[period], new double[period]);
            for (var n = 0; n < period; n++)
            {
                (Cosines[h][n], Sines[h][n]) = RootOfUnity.At((h + 1L) * n, period);
            }
        }

        var frames = 2 * Step;
        (Window, BesideCosine, BesideSine) = (new double[frames], new double[frames], new double[frames]);
        ChangeWindow = new double[frames];
        for (var n = 0; n < frames; n++)
        {
            // A sine of one is to be read as one.
            Window[n] = 2 * (1 - RootOfUnity.At(n, frames).Cos) / frames;
            var (cos, sin) = RootOfUnity.At(Beside * (long)n, frames);
            (BesideCosine[n], BesideSine[n]) = (Window[n] * cos, Window[n] * -sin);
            ChangeWindow[n] = 2 * ChangePerTurn * RootOfUnity.At(n, frames).Sin / frames;
        }
    }

    /// <summary>Frames of a period.</summary>
    public int Period { get; }

    /// <summary>Frames from one stretch to the next.</summary>
    public int Step { get; }

    /// <summary>How many harmonics there are, the mains' own frequency among them.</summary>
    public int Harmonics => Cosines.Length;

    /// <summary>A row for each harmonic.</summary>
    public double[][] Cosines { get; }

    /// <summary>A row for each harmonic.</summary>
    public double[][] Sines { get; }

    /// <summary>The window.</summary>
    public double[] Window { get; }

    /// <summary>The window, turned on to the place beside a harmonic.</summary>
    public double[] BesideCosine { get; }

    /// <summary>The same, a quarter of a turn on.</summary>
    public double[] BesideSine { get; }

    /// <summary>One turn of a sine: what does not change over the stretch does not show through it, nor does any harmonic.</summary>
    public double[] ChangeWindow { get; }

    /// <summary>What the window lets through of a sine beside its place.</summary>
    /// <param name="turns">How many turns it gains over the stretch, less than one to either side.</param>
    public static double Response(double turns)
    {
        var angle = Math.PI * turns;

        // At no turns the sine over its angle is 1; below this it is so to the last bit.
        var sinc = Math.Abs(angle) < 1e-8 ? 1 : Elementary.Sin(angle) / angle;
        return sinc / (1 - (turns * turns));
    }
}
