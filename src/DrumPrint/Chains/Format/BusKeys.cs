using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of a bus.</summary>
internal static class BusKeys
{
    public const string Auto = "auto";
    public const string Mono = "mono";
    public const string Stereo = "stereo";

    private const string SampleFeed = "\"kick in\": 0";

    public static readonly NamedShapesParameter From = new("from", FeedKeys.Shape, "What comes in: tracks and other buses, each with its level.")
    {
        IsRequired = true,
        RefersToSources = true,
        Sample = SampleFeed,
        WhenEmpty = $"nothing comes into this bus. Name at least one track or bus, such as {SampleFeed}.",
    };

    public static readonly ChoiceParameter Channels = new(
        "channels",
        [new(Auto, "stereo as soon as a feed is stereo or panned"), new(Mono, "one channel"), new(Stereo, "two channels")],
        Auto,
        "How many channels the feeds are summed into.");

    public static readonly StagesParameter Through = new("through", "Processors, in order.");

    public static readonly Shape Shape = new("a bus", "Sums its feeds and runs the sum through processors.", [From, Channels, Through]) { Refusals = MisplacedStages.Refusals };
}
