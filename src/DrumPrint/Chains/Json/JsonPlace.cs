using DrumPrint.Language;

namespace DrumPrint.Chains.Json;

/// <summary>Writes where in a file's structure something stands: <c>buses.impact.through[1].compress.ratio</c>.</summary>
internal static class JsonPlace
{
    private static readonly System.Buffers.SearchValues<char> Ambiguous = System.Buffers.SearchValues.Create(".[]\"");

    public static string Key(string parent, string key)
    {
        var shown = Show.Name(key);
        var step = shown.Length == 0 || shown.AsSpan().ContainsAny(Ambiguous) ? $"\"{shown}\"" : shown;
        return parent.Length == 0 ? step : $"{parent}.{step}";
    }

    public static string Item(string parent, int index) => FormattableString.Invariant($"{parent}[{index}]");
}
