using DrumPrint.Store;

namespace DrumPrint.Fuzz.Targets;

/// <summary>A user's secret that is known here, so that inputs can be summed as if the user had written them: otherwise nothing but
/// the sums would ever be tried.</summary>
internal static class StoreSecret
{
    public const string Store = "0123456789abcdef0123456789abcdef";

    public static readonly byte[] Bytes = [.. Enumerable.Range(0, 32).Select(n => (byte)n)];

    /// <summary>The name that entries go by.</summary>
    public static readonly string Key = new('a', 64);

    public static StoreSums Sums() => new(Bytes, Store);
}
