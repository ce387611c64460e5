namespace DrumPrint.Tests.Support;

/// <summary>A theory that needs a program of the system; skipped with a message where it is not installed.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class TheoryWithToolAttribute : TheoryAttribute
{
    public TheoryWithToolAttribute(string tool) => Skip = new FactWithToolAttribute(tool).Skip;
}
