using System.Text;
using DrumPrint.Dsp.Parameters;
using DrumPrint.Language;

namespace DrumPrint.Chains.Reading;

/// <summary>Finds the key that was meant: another spelling, a missing or wrong unit, or a slip of the finger.</summary>
internal static class KeyAdvice
{
    // What people write for a unit, and the ending this format uses.
    private static readonly Dictionary<string, string> Foreign = new()
    {
        ["_sec"] = "_s",
        ["_secs"] = "_s",
        ["_seconds"] = "_s",
        ["_msec"] = "_ms",
        ["_milliseconds"] = "_ms",
        ["_percent"] = "_pct",
        ["_khz"] = "_hz",
        ["_samples"] = "_frames",
        ["_dbfs"] = "_db",
        ["_meters"] = "_m",
        ["_metres"] = "_m",
        ["_cm"] = "_m",
    };

    // Longest first: "_db_per_oct" before anything that is its end.
    private static readonly string[] Endings =
    [
        .. Enum.GetValues<Unit>().Select(u => u.Suffix()).Where(s => s.Length > 0).Concat(Foreign.Keys).OrderByDescending(s => s.Length),
    ];

    /// <summary>The key that was meant; null when none comes close.</summary>
    public static Parameter? Meant(string given, IReadOnlyList<Parameter> keys)
    {
        var snake = Snake(given);
        var stem = Stem(snake);
        var unit = Foreign.GetValueOrDefault(Ending(snake), Ending(snake));
        return keys.FirstOrDefault(k => k.Key == snake)
            ?? keys.Where(k => Stem(k.Key) == stem).OrderByDescending(k => Ending(k.Key) == unit).FirstOrDefault()
            ?? keys.FirstOrDefault(k => k.AlsoCalled.Contains(stem))
            ?? Close(snake, keys, k => k.Key)
            ?? Close(stem, keys, k => Stem(k.Key))
            ?? keys.FirstOrDefault(k => IsStart(stem, Stem(k.Key)));
    }

    /// <summary>The key as it is offered: in quotes, and with its unit where that is what was wrong.</summary>
    public static string Offer(Parameter meant, string given) =>
        meant.Unit.Word().Length > 0 && Ending(meant.Key) != Ending(given)
            ? $"'{meant.Key}' ({meant.Unit.Word()})"
            : $"'{meant.Key}'";

    private static Parameter? Close(string given, IReadOnlyList<Parameter> keys, Func<Parameter, string> text) =>
        Nearest.Word(given, keys.Select(text)) is { } word ? keys.First(k => text(k) == word) : null;

    private static bool IsStart(string a, string b) =>
        Math.Min(a.Length, b.Length) >= 3 && (a.StartsWith(b, StringComparison.Ordinal) || b.StartsWith(a, StringComparison.Ordinal));

    private static string Stem(string key) => key[..^Ending(key).Length];

    private static string Ending(string key) => Endings.FirstOrDefault(e => key.Length > e.Length && key.EndsWith(e, StringComparison.Ordinal)) ?? "";

    // attackMs, Attack-ms and "attack ms" all become attack_ms.
    private static string Snake(string given)
    {
        var text = new StringBuilder();
        for (var i = 0; i < given.Length; i++)
        {
            if (char.IsUpper(given[i]) && i > 0 && char.IsLower(given[i - 1]))
            {
                text.Append('_');
            }

            text.Append(given[i] is ' ' or '-' or '.' ? '_' : char.ToLowerInvariant(given[i]));
        }

        return text.ToString();
    }
}
