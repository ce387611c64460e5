namespace DrumPrint.Tests.Chains;

/// <summary>Finds the files the tests share with readers of the repository.</summary>
internal static class Fixtures
{
    public static string Chain(string name) => Repository.File("fixtures", "chains", name);
}
