namespace DrumPrint.Checking;

/// <summary>What <see cref="CheckJson"/> writes, as JSON Schema.</summary>
public static class CheckSchema
{
    /// <summary>The schema.</summary>
    public static string Text()
    {
        using var stream = typeof(CheckSchema).Assembly.GetManifestResourceStream("DrumPrint.Checking.check.schema.json")!;
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
