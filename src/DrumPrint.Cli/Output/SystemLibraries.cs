using System.Runtime.InteropServices;

namespace DrumPrint.Cli.Output;

/// <summary>What the program needs of the system beside the C library. Without it the runtime would end the program in mid-work, with a
/// line nobody understands.</summary>
internal static class SystemLibraries
{
    // By these names the runtime looks for OpenSSL; a test holds them against the runtime's own.
    private static readonly string[] OpenSsl = ["libssl.so.3", "libssl.so.1.1", "libssl.so.1.0.2", "libssl.so.1.0.0", "libssl.so.10"];

    /// <summary>What is missing, and how to get it; null where nothing is.</summary>
    public static string? Trouble() =>
        OperatingSystem.IsLinux() && Environment.GetEnvironmentVariable("DOTNET_OPENSSL_VERSION_OVERRIDE") is null ? Trouble(OpenSsl, name => NativeLibrary.TryLoad(name, out _)) : null;

    /// <summary>The same for any names and any way to look.</summary>
    /// <param name="names">File names, one of which is enough.</param>
    /// <param name="isThere">Whether the system has one.</param>
    internal static string? Trouble(IReadOnlyList<string> names, Func<string, bool> isThere) => names.Any(isThere)
        ? null
        : $"OpenSSL is not installed on this system ({names[0]}); DrumPrint takes the sums of files with it. The package is libssl3 on Debian and Ubuntu, openssl-libs on Fedora, openssl on Arch.";

    /// <summary>The names, for the test.</summary>
    internal static IReadOnlyList<string> Names => OpenSsl;
}
