using System.Runtime.CompilerServices;

namespace DrumPrint.Tests.Support;

/// <summary>No test reads or writes the settings of whoever runs it.</summary>
internal static class OwnSettings
{
    [ModuleInitializer]
    internal static void Begin()
    {
        var folder = Directory.CreateTempSubdirectory("drumprint-settings-").FullName;
        Environment.SetEnvironmentVariable("DRUMPRINT_SETTINGS", folder);
        AppDomain.CurrentDomain.ProcessExit += (_, _) => Directory.Delete(folder, recursive: true);
    }
}
