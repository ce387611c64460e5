using DrumPrint.Dsp.Numerics;
using DrumPrint.Dsp.Tests.Support;
using FsCheck.Xunit;

namespace DrumPrint.Dsp.Tests.Numerics;

/// <summary>Laws that hold for any argument.</summary>
public class ElementaryPropertyTests
{
    private static readonly string[] Odd = ["Sin", "Tan", "Tanh", "Atan"];
    private static readonly string[] Even = ["Cos", "BesselI0"];
    private static readonly string[] Rising = ["Exp", "Exp2", "Expm1", "Tanh", "Atan", "ToGain"];
    private static readonly string[] RisingFromZero = ["Log", "Log2", "Log10", "Log1p", "FromGain", "BesselI0"];

    [Property(MaxTest = 300)]
    public bool Odd_functions_change_sign_with_their_argument(double x) =>
        Odd.Select(name => ElementaryTable.Functions[name]).All(f => Same(f(-x, 0), -f(x, 0)));

    [Property(MaxTest = 300)]
    public bool Even_functions_do_not(double x) =>
        Even.Select(name => ElementaryTable.Functions[name]).All(f => Same(f(-x, 0), f(x, 0)));

    [Property(MaxTest = 300)]
    public bool Rising_functions_never_fall_from_one_double_to_the_next(double x)
    {
        // Folded, so that huge arguments become ordinary ones.
        var anywhere = Math.IEEERemainder(double.IsFinite(x) ? x : 1, 30);
        var positive = Math.Exp(anywhere);

        return Rises(Rising, anywhere) && Rises(RisingFromZero, positive);
    }

    [Property(MaxTest = 300)]
    public bool Exp_undoes_log(double x)
    {
        var positive = Math.Max(Math.Abs(double.IsFinite(x) ? x : 1), 1e-300);

        return Math.Abs((Elementary.Exp(Elementary.Log(positive)) / positive) - 1) < NumericsTolerance.RoundTrip;
    }

    [Property(MaxTest = 300)]
    public bool Sine_and_cosine_lie_on_the_unit_circle(double x)
    {
        var (sin, cos) = Elementary.SinCos(double.IsFinite(x) ? x : 1);

        return Math.Abs((sin * sin) + (cos * cos) - 1) <= NumericsTolerance.UnitCircle;
    }

    [Property(MaxTest = 300)]
    public bool SinCos_gives_the_bits_of_Sin_and_Cos(double x) =>
        Same(Elementary.SinCos(x).Sin, Elementary.Sin(x)) && Same(Elementary.SinCos(x).Cos, Elementary.Cos(x));

    [Property(MaxTest = 300)]
    public bool The_first_power_changes_nothing(double x) => Same(Elementary.Pow(x, 1), x);

    [Property(MaxTest = 300)]
    public bool Exp2_of_a_whole_number_is_exact(short n) =>
        Same(Elementary.Exp2(n % 1074), Math.ScaleB(1, n % 1074));

    private static bool Rises(string[] names, double x) =>
        names.Select(name => ElementaryTable.Functions[name]).All(f => f(x, 0) <= f(Math.BitIncrement(x), 0));

    private static bool Same(double a, double b) => a.Equals(b) && (double.IsNaN(a) || double.IsNegative(a) == double.IsNegative(b));
}
