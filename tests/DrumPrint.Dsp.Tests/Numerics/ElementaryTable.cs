using System.Globalization;
using DrumPrint.Dsp.Numerics;

namespace DrumPrint.Dsp.Tests.Numerics;

/// <summary>The high-precision values in fixtures/numerics, and the functions they belong to.</summary>
internal static class ElementaryTable
{
    public static readonly IReadOnlyDictionary<string, Func<double, double, double>> Functions =
        new Dictionary<string, Func<double, double, double>>
        {
            ["Exp"] = (x, _) => Elementary.Exp(x),
            ["Exp2"] = (x, _) => Elementary.Exp2(x),
            ["Expm1"] = (x, _) => Elementary.Expm1(x),
            ["Log"] = (x, _) => Elementary.Log(x),
            ["Log2"] = (x, _) => Elementary.Log2(x),
            ["Log10"] = (x, _) => Elementary.Log10(x),
            ["Log1p"] = (x, _) => Elementary.Log1p(x),
            ["Pow"] = Elementary.Pow,
            ["Sin"] = (x, _) => Elementary.Sin(x),
            ["Cos"] = (x, _) => Elementary.Cos(x),
            ["Tan"] = (x, _) => Elementary.Tan(x),
            ["Tanh"] = (x, _) => Elementary.Tanh(x),
            ["Atan"] = (x, _) => Elementary.Atan(x),
            ["BesselI0"] = (x, _) => Elementary.BesselI0(x),
            ["ToGain"] = (x, _) => Decibels.ToGain(x),
            ["FromGain"] = (x, _) => Decibels.FromGain(x),
        };

    private static readonly Lazy<ILookup<string, Row>> Rows = new(Read);

    public static IEnumerable<Row> Of(string function) => Rows.Value[function];

    public static string FixtureFolder => Repository.File(Path.Combine("fixtures", "numerics"));

    private static ILookup<string, Row> Read() =>
        File.ReadLines(Path.Combine(FixtureFolder, "elementary.csv"))
            .Skip(1)
            .Select(line => line.Split(','))
            .ToLookup(
                fields => fields[0],
                fields => new Row(Bits(fields[1]), Bits(fields[2]), Bits(fields[3]), double.Parse(fields[4], CultureInfo.InvariantCulture)));

    private static double Bits(string hex) =>
        BitConverter.UInt64BitsToDouble(ulong.Parse(hex, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture));

    /// <summary>The true value at X (and Y) is Nearest + Beyond · ulp.</summary>
    internal readonly record struct Row(double X, double Y, double Nearest, double Beyond)
    {
        public double UlpError(double value)
        {
            var size = Math.Abs(Nearest);
            var ulp = size == double.MaxValue ? size - Math.BitDecrement(size) : Math.BitIncrement(size) - size;
            var error = Math.Abs(((value - Nearest) / ulp) - Beyond);
            return double.IsNaN(error) ? double.PositiveInfinity : error;
        }
    }
}
