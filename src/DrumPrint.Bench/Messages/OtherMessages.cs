namespace DrumPrint.Bench.Messages;

/// <summary>What a change came to.</summary>
/// <param name="Id">Number of the request; 0 for an edit from outside.</param>
/// <param name="Version">Number of the first sound that has it.</param>
/// <param name="Sentences">What changed, in words.</param>
/// <param name="By">page, undo, redo or outside.</param>
/// <param name="Ms">Milliseconds from the request to its sound being ready.</param>
internal sealed record ChangedMessage(int Id, int Version, IReadOnlyList<string> Sentences, string By, double Ms)
{
    public string Kind { get; } = "changed";

    /// <summary>What the equaliser that is being tried does to each frequency; null for anything else.</summary>
    public IReadOnlyList<double>? Response { get; init; }
}

/// <summary>A sentence for the user.</summary>
/// <param name="Id">Number of the request it answers; 0 for none.</param>
/// <param name="Text">The sentence.</param>
/// <param name="Kind">told, refused, broken, ended or over.</param>
internal sealed record WordMessage(int Id, string Text, string Kind);

/// <summary>What there is to know of the song's own mix.</summary>
/// <param name="File">The file as the chain names it; null when it names none.</param>
/// <param name="Problem">Why it cannot be heard, in a sentence; null when it can.</param>
/// <param name="IsOpening">Whether it is being opened.</param>
/// <param name="Columns">Its peaks over the song, as those of a print; null until they are known.</param>
internal sealed record PartnerMessage(string? File, string? Problem, bool IsOpening, string? Columns)
{
    public string Kind { get; } = "partner";
}

/// <summary>That two states play in step, or no longer do. Nothing tells which of them is heard.</summary>
/// <param name="On">Whether they do.</param>
/// <param name="Db">How much louder the second is than the first, before both were matched.</param>
/// <param name="Text">Why they do not, in a sentence; null where nothing need be said.</param>
internal sealed record BlindMessage(bool On, double Db, string? Text)
{
    public string Kind { get; } = "blind";
}

/// <summary>How far something long is.</summary>
/// <param name="Job">What it is.</param>
/// <param name="Activity">What it does now; empty when it has ended.</param>
/// <param name="Part">How much is done, of 1.</param>
internal sealed record ProgressMessage(string Job, string Activity, double Part)
{
    public string Kind { get; } = "progress";
}

/// <summary>What a print came to.</summary>
internal sealed record PrintedMessage(string Folder, IReadOnlyList<string> Sentences)
{
    public string Kind { get; } = "printed";
}

/// <summary>How much louder the file is than a kept state; the louder one is heard lower by that.</summary>
/// <param name="Kept">Number of the state.</param>
/// <param name="Db">The difference where it plays.</param>
internal sealed record MatchMessage(int Kept, double Db)
{
    public string Kind { get; } = "match";
}
