using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of an entry of <c>bars</c>.</summary>
internal static class TempoBarKeys
{
    public static readonly NumberParameter FromBar = new("from_bar", Unit.None, 1, 9999, null, "First bar it holds for.") { IsWhole = true, IsRequired = true };

    public static readonly TextParameter Metre = new("metre", TextKind.Metre, "Beats and note value; as before when left out.");

    public static readonly NumberParameter Bpm = new("bpm", Unit.None, 20, 400, null, "Quarter notes per minute; as before when left out.");

    public static readonly Shape Shape = new("a tempo entry", "Bars of one metre and tempo.", [FromBar, Metre, Bpm]);
}
