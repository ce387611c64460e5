namespace DrumPrint.Session;

/// <summary>The words that tickets and JSON use for what a file is.</summary>
internal static class PrintKinds
{
    public static string Word(PrintKind kind) => kind switch
    {
        PrintKind.Playing => "playing",
        PrintKind.Optional => "optional",
        PrintKind.Rough => "rough",
        PrintKind.RoughWithBus => "rough_with_bus",
        _ => "click",
    };
}
