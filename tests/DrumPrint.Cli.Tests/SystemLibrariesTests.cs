using System.Runtime.InteropServices;
using System.Text;
using System.Text.RegularExpressions;
using DrumPrint.Cli.Output;

namespace DrumPrint.Cli.Tests;

public sealed class SystemLibrariesTests
{
    [Fact]
    public void A_system_without_OpenSSL_is_told_its_name_and_the_packages()
    {
        var told = SystemLibraries.Trouble(SystemLibraries.Names, _ => false);

        Assert.Contains("OpenSSL is not installed on this system (libssl.so.3)", told, StringComparison.Ordinal);
        Assert.Contains("libssl3", told, StringComparison.Ordinal);
    }

    [Fact]
    public void Any_version_that_the_runtime_takes_will_do() =>
        Assert.All(SystemLibraries.Names, there => Assert.Null(SystemLibraries.Trouble(SystemLibraries.Names, name => name == there)));

    [Fact]
    public void This_system_has_what_it_needs() => Assert.Null(SystemLibraries.Trouble());

    // Source: the names within the runtime's own library, which loads one of them.
    [Fact]
    public void The_names_are_those_the_runtime_looks_for()
    {
        var library = Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "libSystem.Security.Cryptography.Native.OpenSsl.so");
        if (!File.Exists(library))
        {
            return;
        }

        var names = Regex.Matches(Encoding.Latin1.GetString(File.ReadAllBytes(library)), @"libssl\.so\.[0-9][0-9.]*").Select(m => m.Value).Order(StringComparer.Ordinal);

        Assert.Equal(SystemLibraries.Names.Order(StringComparer.Ordinal), names);
    }
}
