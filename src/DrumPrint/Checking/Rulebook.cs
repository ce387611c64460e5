using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Rules;

namespace DrumPrint.Checking;

/// <summary>Every rule there is, in the order of their names.</summary>
public static class Rulebook
{
    internal static IReadOnlyList<CheckRule> Checks { get; } =
    [
        new WrongRate(),
        new WrongPace(),
        new Upsampled(),
        new PaddedDepth(),
        new MixedDepths(),
        new FloatOvers(),
        new LossyPast(),
        new Unreadable(),
        new ReferenceTrouble(),
        new NameTrouble(),
        new NumberGap(),
        new UnequalFiles(),
        new SlippedTrack(),
        new LatePrint(),
        new Drift(),
        new NoRunUp(),
        new OffGrid(),
        new MisplacedMicrophone(),
        new Clipped(),
        new ClippedBefore(),
        new Hot(),
        new TooQuiet(),
        new NormalisedSet(),
        new BalanceLost(),
        new SumOverload(),
        new Offset(),
        new HumAndNoise(),
        new DropOut(),
        new EditClick(),
        new Silent(),
        new NearlyEmpty(),
        new Duplicate(),
        new Missing(),
        new WrongTake(),
        new MonoAsStereo(),
        new DeadSide(),
        new SwappedSides(),
        new SidesAgainst(),
        new SnareOffCentre(),
        new PairMismatch(),
        new FlippedPolarity(),
        new ParallelComb(),
        new SteepFilter(),
        new MovedRoom(),
        new LooseAlignment(),
        new CombAhead(),
        new EdgeClick(),
        new CutTail(),
        new AbruptStop(),
        new FadePastEnd(),
        new ChoppedAttack(),
        new Chatter(),
        new LostHits(),
        new FalseOpens(),
        new ImpulseTrouble(),
        new UnityBroken(),
        new PanLawUnknown(),
        new WithBusMissing(),
        new TempoMissing(),
        new TicketMismatch(),
        new TrackUnheard(),
        new BusUnheard(),
        new SameBus(),
        new FeedsCancel(),
    ];

    /// <summary>What each looks for.</summary>
    public static IReadOnlyList<Rule> All { get; } = [.. Checks.Select(c => c.Rule)];
}
