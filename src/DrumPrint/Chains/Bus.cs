namespace DrumPrint.Chains;

/// <summary>Sums feeds and runs the sum through processors.</summary>
/// <param name="Name">The word the chain uses.</param>
/// <param name="Feeds">What comes in, in file order, without what is off.</param>
/// <param name="Stages">Processors in order, without those that are off.</param>
/// <param name="Channels">1 or 2 when the chain says mono or stereo. Null takes it from the feeds: stereo as soon as one
/// is stereo or panned.</param>
/// <param name="Line">Line in the chain file, from 1.</param>
public sealed record Bus(string Name, IReadOnlyList<Feed> Feeds, IReadOnlyList<Stage> Stages, int? Channels, int Line)
{
    /// <summary>Feeds that are off: they stand in the chain, and nothing comes in by them.</summary>
    public IReadOnlyList<TurnedOff<Feed>> OffFeeds { get; init; } = [];

    /// <summary>Processors that are off.</summary>
    public IReadOnlyList<TurnedOff<Stage>> OffStages { get; init; } = [];

    /// <summary>The bus as it is heard, without what is off.</summary>
    public Bus Heard() => OffFeeds.Count + OffStages.Count == 0 ? this : this with { OffFeeds = [], OffStages = [] };
}
