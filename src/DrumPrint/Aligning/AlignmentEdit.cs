using System.Security.Cryptography;
using System.Text.Json;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Files;

namespace DrumPrint.Aligning;

/// <summary>Writes moves into a chain file in place, and takes the last ones back.</summary>
public static class AlignmentEdit
{
    private const string BeforeEnding = ".before-align.json";

    /// <summary>Writes moves. What the file was is kept beside it for <see cref="Undo(string)"/>.</summary>
    /// <param name="path">The chain file.</param>
    /// <param name="chain">What it says.</param>
    /// <param name="moves">What is to be in it.</param>
    /// <returns>Whether anything changed.</returns>
    /// <exception cref="ChainException">The file was changed to one that cannot be read.</exception>
    public static bool Apply(string path, Chain chain, IReadOnlyList<AlignmentMove> moves) => Apply(path, chain, moves, FileSteps.Plain);

    internal static bool Apply(string path, Chain chain, IReadOnlyList<AlignmentMove> moves, FileSteps steps)
    {
        ArgumentNullException.ThrowIfNull(moves);
        var before = SourceFile.Read(path);
        var after = moves.Aggregate(before, (text, move) => move.WriteInto(text, chain));
        if (after.AsSpan().SequenceEqual(before))
        {
            return false;
        }

        ChainReader.Parse(after, path);
        var kept = JsonSerializer.SerializeToUtf8Bytes(
            new Dictionary<string, string> { ["after_sha256"] = Hash(after), ["before_base64"] = Convert.ToBase64String(before) }, KeptJson.Default.DictionaryStringString);
        Write(BeforePath(path), kept, steps);
        Write(path, after, steps);
        return true;
    }

    /// <summary>Puts back the bytes from before the last <see cref="Apply(string, Chain, IReadOnlyList{AlignmentMove})"/>.</summary>
    /// <param name="path">The chain file.</param>
    /// <exception cref="UsageException">Nothing was written by <c>align</c>, or the file was edited since.</exception>
    public static void Undo(string path) => Undo(path, FileSteps.Plain);

    internal static void Undo(string path, FileSteps steps)
    {
        var keptPath = BeforePath(path);
        if (!File.Exists(keptPath))
        {
            throw new UsageException($"{path}: there is nothing to take back; align --apply wrote nothing into it, or that was taken back already.");
        }

        var (after, before) = Kept(keptPath) ?? throw new UsageException($"{keptPath} cannot be read, so that nothing can be taken back. {path} stays as it is.");
        if (Hash(SourceFile.Read(path)) != after)
        {
            throw new UsageException($"{path} was edited since align wrote into it, and stays as it is. What it was before lies in {keptPath}.");
        }

        // What is kept may have come with the session.
        if (!IsChain(before))
        {
            throw new UsageException($"{keptPath} holds no chain, so nothing is taken back. {path} stays as it is.");
        }

        Write(path, before, steps);
        steps.Delete(keptPath);
    }

    private static bool IsChain(byte[] text)
    {
        try
        {
            ReadOnlySpan<byte> mark = [0xEF, 0xBB, 0xBF];
            var json = text.AsSpan().StartsWith(mark) ? text.AsMemory(mark.Length) : text;
            using var document = JsonDocument.Parse(json, new JsonDocumentOptions { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true });
            return document.RootElement.ValueKind == JsonValueKind.Object && document.RootElement.TryGetProperty("chain", out _);
        }
        catch (JsonException)
        {
            return false;
        }
    }

    private static (string After, byte[] Before)? Kept(string path)
    {
        try
        {
            var kept = JsonSerializer.Deserialize(SourceFile.Read(path, 2 * SourceFile.MostBytes), KeptJson.Default.DictionaryStringString);
            return kept?.GetValueOrDefault("after_sha256") is { } after && kept.GetValueOrDefault("before_base64") is { } before ? (after, Convert.FromBase64String(before)) : null;
        }
        catch (Exception e) when (e is JsonException or FormatException)
        {
            return null;
        }
    }

    private static string BeforePath(string path) =>
        Path.Combine(Path.GetDirectoryName(path) ?? "", "." + Path.GetFileName(path) + BeforeEnding);

    private static string Hash(byte[] bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));

    private static void Write(string path, byte[] bytes, FileSteps steps)
    {
        using var file = StagedFile.Create(path, bytes.Length, steps);
        file.Append(bytes);
        file.Complete();
        file.Commit(replaces: true);
        file.FlushName();
    }
}
