using System.Security.Cryptography;
using System.Text;

namespace DrumPrint.Chains.Writing;

/// <summary>SHA-256 of canonical texts, in lower-case hexadecimal.</summary>
internal static class CanonicalHash
{
    public static string Of(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));

    public static string Of(Chain chain) => Of(ChainWriter.Canonical(chain));

    public static string? Of(TempoMap? tempo) => tempo is null ? null : Of(TempoWriter.Canonical(tempo));
}
