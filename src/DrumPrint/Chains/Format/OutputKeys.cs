using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of <c>output</c>.</summary>
internal static class OutputKeys
{
    public const string Bits16 = "16";
    public const string Bits24 = "24";
    public const string Bits32Float = "32f";
    public const string Auto = "auto";
    public const string None = "none";
    public const string Triangular = "tpdf";
    public const string Refuse = "refuse";
    public const string LowerTogether = "lower_together";
    public const string SamplePeak = "sample_peak";
    public const string TruePeak = "true_peak";

    public static readonly ChoiceParameter Bits = new(
        "bits",
        [new(Bits16, "16-bit integer"), new(Bits24, "24-bit integer"), new(Bits32Float, "32-bit float")],
        Bits24,
        "Word length of the prints.");

    public static readonly ChoiceParameter Dither = new(
        "dither",
        [new(Auto, "at 16 bits only"), new(None, "rounded"), new(Triangular, "triangular noise of two steps' width before rounding")],
        Auto,
        "Noise that keeps rounding from sounding like distortion.");

    public static readonly NumberParameter Tail = new("tail_s", Unit.Seconds, 0, 600, null, "Seconds after the last raw frame, and on to a whole second; measured until silent when left out.");

    public static readonly NumberParameter TailCap = new("tail_cap_s", Unit.Seconds, 0, 600, 12, "Longest measured tail; cut at the whole second after it.");

    public static readonly ChoiceParameter Over = new(
        "over",
        [new(Refuse, "stop and say which level would fit; 32-bit float holds it, and it is told"), new(LowerTogether, "lower every print by the same trim")],
        Refuse,
        "What happens when a print would go above 0 dBFS.");

    public static readonly ChoiceParameter OverAt = new(
        "over_at",
        [new(SamplePeak, "the largest sample"), new(TruePeak, "the level between the samples, ITU-R BS.1770-5")],
        SamplePeak,
        "Which peak counts for over.");

    public static readonly ShapeParameter Rough = new("rough", BesideKeys.Rough.Shape, "The rough before the drum bus.");

    public static readonly ShapeParameter RoughWithBus = new("rough_with_bus", BesideKeys.RoughWithBus.Shape, "The rough through the drum bus.");

    public static readonly ShapeParameter Click = new("click", BesideKeys.Click.Shape, "The click from the tempo map.");

    public static readonly Shape Shape = new(
        "the output", "How prints are written.", [Bits, Dither, Tail, TailCap, Over, OverAt, Rough, RoughWithBus, Click]);
}
