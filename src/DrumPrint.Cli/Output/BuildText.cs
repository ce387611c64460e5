using System.Reflection;
using System.Runtime.InteropServices;

namespace DrumPrint.Cli.Output;

/// <summary>Version and build in one line: <c>0.9.0 (linux-x64, native, built from 1a2b3c4)</c>.</summary>
internal static class BuildText
{
    public static string Line => $"{EngineVersion.Text} ({RuntimeInformation.RuntimeIdentifier}, {Form}, {Source})";

    private static string Form => Told("Form") ?? "on the .NET runtime";

    // A release names the state of the source it was made of; any other build does not know it.
    private static string Source => Told("Source") is { } name ? $"built from {name}" : "built by hand";

    private static string? Told(string key) => typeof(BuildText).Assembly.GetCustomAttributes<AssemblyMetadataAttribute>().FirstOrDefault(a => a.Key == key)?.Value;
}
