namespace DrumPrint.Page.Tests;

/// <summary>A fact that needs Chromium; skipped with a message where it is not installed.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class FactInBrowserAttribute : FactAttribute
{
    public FactInBrowserAttribute()
    {
        if (Browser.Executable is null)
        {
            Skip = "Chromium is not installed: apt-get install chromium-headless-shell or chromium, or name it in DRUMPRINT_CHROMIUM.";
        }
    }
}
