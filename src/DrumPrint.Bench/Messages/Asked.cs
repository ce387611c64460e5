using System.Text.Json.Serialization;

namespace DrumPrint.Bench.Messages;

/// <summary>What the page asks for.</summary>
internal sealed record Asked
{
    /// <summary>What is to be done, in a word.</summary>
    public string Kind { get; init; } = "";

    /// <summary>Number of the request, given back with what came of it.</summary>
    public int Id { get; init; }

    /// <summary>Values of the chain.</summary>
    public IReadOnlyList<AskedValue> Values { get; init; } = [];

    /// <summary>A frame of the song.</summary>
    public long? Frame { get; init; }

    /// <summary>One past the last frame of a stretch.</summary>
    public long? To { get; init; }

    /// <summary>Number of a print.</summary>
    public int Number { get; init; }

    /// <summary>Linear gain of a fader.</summary>
    public double Gain { get; init; }

    /// <summary>Whether something is on.</summary>
    public bool On { get; init; }

    /// <summary>Name of a track.</summary>
    public string Track { get; init; } = "";

    /// <summary>Number of a kept state.</summary>
    public int? Kept { get; init; }

    /// <summary>Number of the kept state that is held against it; null for the file.</summary>
    public int? Other { get; init; }
}

/// <summary>One value of the chain as the page wants it.</summary>
/// <param name="Place">The way to the entry.</param>
/// <param name="Key">The key.</param>
/// <param name="Number">A number.</param>
/// <param name="Word">A word.</param>
/// <param name="IsOn">True or false. Without any of the three the key is taken out.</param>
internal sealed record AskedValue(IReadOnlyList<string> Place, string Key, double? Number, string? Word, bool? IsOn);

[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.SnakeCaseLower, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull)]
[JsonSerializable(typeof(Asked))]
[JsonSerializable(typeof(string))]
[JsonSerializable(typeof(StateMessage))]
[JsonSerializable(typeof(ChangedMessage))]
[JsonSerializable(typeof(WordMessage))]
[JsonSerializable(typeof(OutlineMessage))]
[JsonSerializable(typeof(ProgressMessage))]
[JsonSerializable(typeof(PrintedMessage))]
[JsonSerializable(typeof(MatchMessage))]
[JsonSerializable(typeof(FindingsMessage))]
[JsonSerializable(typeof(MetersMessage))]
[JsonSerializable(typeof(PartnerMessage))]
[JsonSerializable(typeof(BlindMessage))]
internal sealed partial class BenchJson : JsonSerializerContext;
