namespace DrumPrint.Bench.Messages;

/// <summary>The whole chain and what can be done with it, as the page shows it.</summary>
internal sealed record StateMessage
{
    public string Kind { get; } = "state";

    public string Engine { get; } = EngineVersion.Text;

    public required string Title { get; init; }

    public required string File { get; init; }

    public required int RateHz { get; init; }

    public required int BlockFrames { get; init; }

    public required long Frames { get; init; }

    public required IReadOnlyList<BarState> Bars { get; init; }

    public required IReadOnlyList<SectionState> Sections { get; init; }

    public required IReadOnlyList<string> Tracks { get; init; }

    public required IReadOnlyList<BusState> Buses { get; init; }

    public required IReadOnlyList<PrintState> Prints { get; init; }

    public required IReadOnlyList<StageState> DrumBus { get; init; }

    public required IReadOnlyList<string> Mistakes { get; init; }

    public required IReadOnlyList<string> Forgetting { get; init; }

    public required IReadOnlyList<IReadOnlyList<string>> History { get; init; }

    public required IReadOnlyList<string> NextUndo { get; init; }

    public required IReadOnlyList<string> NextRedo { get; init; }

    public IReadOnlyList<KeptState> Kept { get; init; } = [];

    public required bool MayWrite { get; init; }

    public required string CopyPath { get; init; }

    /// <summary>Number of the kept state that sounds in place of the file; null for the file itself.</summary>
    public int? Heard { get; init; }

    public required bool WithBus { get; init; }

    public double TrimDb { get; init; }

    public required IReadOnlyList<double> Frequencies { get; init; }

    /// <summary>Mid frequencies of the bands of the meters.</summary>
    public required IReadOnlyList<double> BandFrequencies { get; init; }
}

/// <summary>Where a bar begins.</summary>
internal sealed record BarState(int Bar, double AtS, int Beats);

/// <summary>Where a section begins.</summary>
internal sealed record SectionState(double AtS, string Name);

/// <summary>A state of the chain that was kept to be compared with.</summary>
internal sealed record KeptState(int Number, string Name);

/// <summary>A bus with all that feeds it and all it goes through.</summary>
internal sealed record BusState(string Name, IReadOnlyList<FeedState> Feeds, IReadOnlyList<StageState> Stages);

/// <summary>One input of a bus.</summary>
internal sealed record FeedState(string Source, bool IsOff, IReadOnlyList<string> Place, IReadOnlyList<SettingState> Settings, string? Also);

/// <summary>A print as a strip.</summary>
internal sealed record PrintState(int Number, string Name, string Bus, bool IsOptional, IReadOnlyList<string> Place, SettingState Level);

/// <summary>One processor.</summary>
internal sealed record StageState(string Name, string Help, bool IsOff, string? Key, IReadOnlyList<string> Place, IReadOnlyList<SettingState> Settings, IReadOnlyList<BandState> Bands, IReadOnlyList<double>? Response);

/// <summary>One band of an equaliser.</summary>
internal sealed record BandState(string Name, string Help, IReadOnlyList<string> Place, IReadOnlyList<SettingState> Settings);

/// <summary>One setting, all from its one declaration.</summary>
internal sealed record SettingState
{
    public required string Key { get; init; }

    public required string Help { get; init; }

    /// <summary>number, choice, toggle or impulse.</summary>
    public required string Kind { get; init; }

    public string? Unit { get; init; }

    public string? UnitWord { get; init; }

    public double? Least { get; init; }

    public double? Most { get; init; }

    public IReadOnlyList<double>? Steps { get; init; }

    public bool IsWhole { get; init; }

    public IReadOnlyList<ChoiceState>? Choices { get; init; }

    public double? Number { get; init; }

    public string? Word { get; init; }

    public bool? IsOn { get; init; }

    /// <summary>What holds without a word of the chain; none where it is then off or settled by something else.</summary>
    public double? DefaultNumber { get; init; }

    public string? DefaultWord { get; init; }

    public bool? DefaultIsOn { get; init; }

    /// <summary>What holds when none is given, in words.</summary>
    public string? LeftOut { get; init; }

    public bool IsRequired { get; init; }
}

/// <summary>One word of a choice.</summary>
internal sealed record ChoiceState(string Word, string Help);
