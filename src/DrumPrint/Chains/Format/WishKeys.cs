using DrumPrint.Dsp.Parameters;

namespace DrumPrint.Chains.Format;

/// <summary>The keys of a wish.</summary>
internal static class WishKeys
{
    public static readonly NumberParameter Version = new("version", Unit.None, 1, 999, null, "Version of the delivery that answers it.") { IsWhole = true, IsRequired = true };

    public static readonly TextParameter Wish = new("wish", TextKind.Title, "What was asked for, in the words of whoever asked.") { IsRequired = true };

    public static readonly TextsParameter About = new("about", "Tracks, buses, impulses or prints whose changes answer it, by name; drum bus for the drum bus.");

    public static readonly TextParameter Answer = new("answer", TextKind.Title, "What is said to it, such as why nothing was changed.");

    public static readonly Shape Shape = new("a wish", "What a mixer asked for, and the version that answers it.", [Version, Wish, About, Answer]);
}
