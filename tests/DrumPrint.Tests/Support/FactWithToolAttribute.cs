namespace DrumPrint.Tests.Support;

/// <summary>A fact that needs a program of the system; skipped with a message where it is not installed.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class FactWithToolAttribute : FactAttribute
{
    public FactWithToolAttribute(string tool)
    {
        var folders = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator);
        if (!folders.Any(f => File.Exists(Path.Combine(f, tool)) || File.Exists(Path.Combine(f, tool + ".exe"))))
        {
            Skip = $"{tool} is not installed.";
        }
    }
}
