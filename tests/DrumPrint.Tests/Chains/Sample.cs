using DrumPrint.Chains;
using DrumPrint.Chains.Reading;

namespace DrumPrint.Tests.Chains;

/// <summary>Short chains for tests, as text.</summary>
internal static class Sample
{
    public const string Song = """{ "title": "Ferry", "code": "Ferry", "rate_hz": 48000 }""";

    public const string Tracks = """{ "in": "raw/in.wav", "out": "raw/out.wav" }""";

    public const string Buses = """{ "kick": { "from": { "in": 0 } } }""";

    public const string Prints = """[ { "number": 1, "name": "Kick", "bus": "kick" } ]""";

    /// <summary>A sound chain with some parts put in place of the usual ones, on one line.</summary>
    public static string Chain(string? song = null, string? tracks = null, string? buses = null, string? prints = null, string rest = "") =>
        $$"""{ "chain": 1, "song": {{song ?? Song}}, "tracks": {{tracks ?? Tracks}}, "buses": {{buses ?? Buses}}, "prints": {{prints ?? Prints}}{{(rest.Length > 0 ? ", " : "")}}{{rest}} }""";

    /// <summary>A chain whose one bus runs through some processors.</summary>
    public static string Through(string stages, string rest = "") =>
        Chain(buses: $$"""{ "kick": { "from": { "in": 0 }, "through": {{stages}} }, "snare": { "from": { "out": 0 } } }""", rest: rest);

    public static Chain Read(string json) => ChainReader.Parse(json, "song.chain.json", TestCatalogue.All);

    /// <summary>The mistakes of a text, as a user sees them but for the file name.</summary>
    public static IReadOnlyList<string> Mistakes(string json) => Mistakes(() => Read(json));

    /// <summary>The mistakes a reading ends with, as a user sees them but for the file name.</summary>
    public static IReadOnlyList<string> Mistakes(Action read)
    {
        var exception = Assert.Throws<ChainException>(read);
        return [.. exception.Problems.Select(p => p.ToString()[(p.File.Length + 1)..])];
    }

    /// <summary>The places and words of the mistakes of a text, where the column is of no interest.</summary>
    public static IReadOnlyList<string> Words(string json)
    {
        var exception = Assert.Throws<ChainException>(() => Read(json));
        return [.. exception.Problems.Select(p => $"{p.Place}: {p.Message}")];
    }
}
