namespace DrumPrint.Chains;

/// <summary>Sums feeds and runs the sum through processors.</summary>
/// <param name="Name">The word the chain uses.</param>
/// <param name="Feeds">What comes in, in file order.</param>
/// <param name="Stages">Processors in order.</param>
/// <param name="Channels">1 or 2 when the chain says mono or stereo. Null takes it from the feeds: stereo as soon as one
/// is stereo or panned.</param>
/// <param name="Line">Line in the chain file, from 1.</param>
public sealed record Bus(string Name, IReadOnlyList<Feed> Feeds, IReadOnlyList<Stage> Stages, int? Channels, int Line);
