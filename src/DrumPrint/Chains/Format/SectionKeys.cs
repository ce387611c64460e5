using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of a section.</summary>
internal static class SectionKeys
{
    public static readonly NumberParameter FromBar = new("from_bar", Unit.None, 1, 9999, null, "First bar.") { IsWhole = true, IsRequired = true };

    public static readonly TextParameter Name = new("name", TextKind.Title, "What the place is called.") { IsRequired = true };

    public static readonly Shape Shape = new("a section", "A named place in the song.", [FromBar, Name]);
}
