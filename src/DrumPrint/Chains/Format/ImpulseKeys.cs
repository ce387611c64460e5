using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of an impulse.</summary>
internal static class ImpulseKeys
{
    public const string Auto = "auto";
    public const string Mono = "mono";
    public const string Stereo = "stereo";
    public const string TrueStereo = "true_stereo";

    public static readonly TextParameter File = new("file", TextKind.Path, "The impulse response.") { IsRequired = true };

    public static readonly ChoiceParameter Layout = new(
        "layout",
        [
            new(Auto, "by the number of channels: 1 mono, 2 stereo, 4 true stereo"),
            new(Mono, "one channel for every side"),
            new(Stereo, "left, right"),
            new(TrueStereo, "left to left, left to right, right to left, right to right"),
        ],
        Auto,
        "What the channels stand for.");

    public static readonly TextParameter Licence = new("licence", TextKind.Title, "What its licence is called, for whoever gets it; changes no sound.");

    public static readonly ToggleParameter PassOn = new("pass_on", false, "Whether its licence lets it lie in a delivery that asks for impulses; changes no sound.");

    public static readonly Shape Shape = new("an impulse", "One impulse response; a path alone is short for its file.", [File, Layout, Licence, PassOn]) { Shorthand = File };
}
