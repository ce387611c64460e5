using System.Globalization;
using DrumPrint.Chains;
using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Diff;

/// <summary>How changes are put into words.</summary>
internal static class ChangeWords
{
    private static readonly Dictionary<string, string> Names = new(StringComparer.Ordinal)
    {
        ["compress"] = "compressor",
        ["saturate"] = "saturation",
        ["duck"] = "ducker",
        ["limit"] = "limiter",
        ["clip"] = "clipper",
        ["convolve"] = "convolution",
    };

    // Levels of a signal, where up and down mean louder and softer.
    private static readonly HashSet<string> Levels = new(StringComparer.Ordinal) { "level_db", "gain_db", "make_up_db", "output_db", "peak_db" };

    /// <summary>What people call a processor.</summary>
    public static string Processor(string key) => Names.GetValueOrDefault(key, key);

    public static string Number(double number) => (number == 0 ? 0 : number).ToString("0.######", CultureInfo.InvariantCulture).Replace('-', '−');

    /// <summary>Two texts with numbers in them, rounded where that still tells them apart and in full where it does not.</summary>
    /// <param name="a">Writes one, with the given way to write a number.</param>
    /// <param name="b">Writes the other.</param>
    public static (string A, string B) Apart(Func<Func<double, string>, string> a, Func<Func<double, string>, string> b)
    {
        var (one, other) = (a(Number), b(Number));
        return one == other ? (a(Exact), b(Exact)) : (one, other);
    }

    public static string Seconds(long frames, int rateHz) => string.Create(CultureInfo.InvariantCulture, $"{(double)frames / rateHz:0.000}");

    /// <summary>A key without its unit, its words apart.</summary>
    public static string Label(string key, Unit unit)
    {
        var suffix = unit.Suffix();
        return (suffix.Length > 0 && key.EndsWith(suffix, StringComparison.Ordinal) ? key[..^suffix.Length] : key).Replace('_', ' ');
    }

    /// <summary>A number that changed, such as <c>level −5 → −7 dB (2 dB down)</c>; null is off.</summary>
    public static string Moved(string key, Unit unit, double? a, double? b)
    {
        var symbol = unit == Unit.None ? "" : " " + unit.Symbol();
        var (from, to) = Apart(write => a is { } x ? write(x) : "off", write => b is { } y ? write(y) : "off");
        var fromUnit = a is not null && b is null ? symbol : "";
        var toUnit = b is null ? "" : symbol;
        var way = a is { } was && b is { } isNow && Levels.Contains(key) && Number(Math.Abs(isNow - was)) is var step and not "0" ? $" ({step} dB {(isNow > was ? "up" : "down")})" : "";
        return $"{Label(key, unit)} {from}{fromUnit} → {to}{toUnit}{way}";
    }

    /// <summary>A goal in words, such as <c>for reduction 6 dB, on loud hits</c>.</summary>
    public static string Goal(Sought sought) => string.Join(", ", sought.Goal.Parameters.Select(p => sought.Settings.Raw(p) switch
    {
        double number => $"{Label(p.Key, p.Unit)} {Number(number)}{(p.Unit == Unit.None ? "" : " " + p.Unit.Symbol())}",
        string word => $"{p.Key.Replace('_', ' ')} {word.Replace('_', ' ')}",
        _ => p.Key.Replace('_', ' '),
    }));

    /// <summary>A number or a goal that gave way to the other, or a goal by which another number was found; null is off.</summary>
    public static string Moved(string key, Unit unit, object? a, object? b)
    {
        string Text(object? value) => value switch
        {
            Sought { Found: { } found } sought => $"{Number(found)} {unit.Symbol()} ({Goal(sought)})",
            Sought sought => Goal(sought),
            double number => $"{Number(number)} {unit.Symbol()}",
            _ => "off",
        };

        return Moved(Label(key, unit), Text(a), Text(b));
    }

    /// <summary>A delay that changed, such as <c>delay none → 1.5 m</c>.</summary>
    public static string Moved(PathDelay a, PathDelay b)
    {
        var (from, to) = Apart(Text(a), Text(b));
        return Moved("delay", from, to);

        static Func<Func<double, string>, string> Text(PathDelay delay) => write => delay.Amount == 0 ? "none" : $"{write(delay.Amount)} {delay.Unit.Symbol()}{(delay.IsExact ? ", exact" : "")}";
    }

    /// <summary>A word that changed, such as <c>polarity normal → inverted</c>.</summary>
    public static string Moved(string label, string a, string b) => $"{label} {a} → {b}";

    public static string Polarity(bool isInverted) => isInverted ? "inverted" : "normal";

    public static string Toggle(bool isOn) => isOn ? "on" : "off";

    private static string Exact(double number) => number.ToString("R", CultureInfo.InvariantCulture).Replace('-', '−');
}
