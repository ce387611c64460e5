using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of a finding that is signed off.</summary>
internal static class AcceptedKeys
{
    public static readonly TextParameter Rule = new("rule", TextKind.Title, "Rule of the check that is signed off, such as C1.") { IsRequired = true };

    public static readonly TextParameter Track = new("track", TextKind.Title, "Track, bus or print it is about, as the check names it; left out for a finding about the whole set.");

    public static readonly TextParameter Why = new("why", TextKind.Title, "The reason, in words for whoever gets the files.") { IsRequired = true };

    public static readonly NumberParameter UpTo = new("up_to", Unit.None, 1, 100000, null, "Places it stands for at most; more than these are told again.") { IsWhole = true };

    public static readonly Shape Shape = new("a signed-off finding", "A finding of the check that is meant, with the reason.", [Rule, Track, Why, UpTo]);
}
