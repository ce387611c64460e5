using System.IO.Compression;
using DrumPrint.Files;

namespace DrumPrint.Delivering;

/// <summary>Puts a folder into a zip file: the same folder, the same bytes.</summary>
/// <remarks>Files stand in the order of their names and bear one date (the earliest that the format knows). They are stored as
/// they are. What compresses them differs from system to system, and sound gains next to nothing.</remarks>
internal static class DeliveryZip
{
    private const int ReadableFile = unchecked((int)0x81A4_0000); // a plain file that everybody may read, as Unix has it

    private static readonly DateTimeOffset Stamp = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);

    /// <summary>Writes it.</summary>
    /// <param name="folder">The folder; its name begins every name inside.</param>
    /// <param name="path">The zip file; nothing may be there.</param>
    /// <param name="steps">Writes it.</param>
    /// <param name="cancel">Stops it.</param>
    public static void Write(string folder, string path, FileSteps steps, CancellationToken cancel)
    {
        using var file = StagedFile.Create(path, steps: steps);
        using (var stream = file.OpenStream())
        {
            using var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true);
            var name = Path.GetFileName(Path.GetFullPath(folder));
            foreach (var source in Directory.EnumerateFiles(folder).Order(StringComparer.Ordinal))
            {
                cancel.ThrowIfCancellationRequested();
                var entry = zip.CreateEntry($"{name}/{Path.GetFileName(source)}", CompressionLevel.NoCompression);
                entry.LastWriteTime = Stamp;
                entry.ExternalAttributes = ReadableFile;
                using var from = new FileStream(RegularFile.Open(source), FileAccess.Read, 1);
                using var to = entry.Open();
                from.CopyTo(to, 1 << 20);
            }
        }

        file.Complete();
        file.Commit(replaces: false);
        FolderEntries.FlushOf(path);
    }
}
