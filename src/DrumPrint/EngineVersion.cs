namespace DrumPrint;

/// <summary>The version a print records.</summary>
public static class EngineVersion
{
    public static string Text { get; } = typeof(EngineVersion).Assembly.GetName().Version!.ToString(3);
}
