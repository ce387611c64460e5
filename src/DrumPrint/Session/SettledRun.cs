namespace DrumPrint.Session;

/// <summary>What one run found out and another, which makes the same prints again, is given.</summary>
/// <remarks>A print made alone cannot know the length and trim that the other prints of its session called for.</remarks>
/// <param name="Frames">Length of every print.</param>
/// <param name="TrimDb">Common trim.</param>
/// <param name="Places">Where raw files are now, by the path the chain gives.</param>
internal sealed record SettledRun(long Frames, double TrimDb, IReadOnlyDictionary<string, string> Places)
{
    /// <summary>Where files of one track begin in it, in frames, where that was taken down.</summary>
    public IReadOnlyDictionary<(string Track, string File), long> Starts { get; init; } = new Dictionary<(string Track, string File), long>();

    /// <summary>What each print says of its maker, by number; a print that is left out is taken for one of this version.</summary>
    public IReadOnlyDictionary<int, CarriedRecord> Carried { get; init; } = new Dictionary<int, CarriedRecord>();
}

/// <summary>What a print says of its maker, so that the same samples make the same file again.</summary>
/// <param name="Form">Form of the record inside it.</param>
/// <param name="Engine">Version of the program that made it.</param>
/// <param name="AudioSha256">Hash of its samples. A print with others is another one, of this version; null when it is not known.</param>
internal sealed record CarriedRecord(int Form, string Engine, string? AudioSha256);
