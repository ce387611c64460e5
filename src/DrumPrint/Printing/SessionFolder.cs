using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Language;
using DrumPrint.Tickets;

namespace DrumPrint.Printing;

/// <summary>Finds the chain that is meant when a folder is named in its place.</summary>
public static class SessionFolder
{
    private const string ChainEnd = ".chain.json";
    private const string TicketEnd = ".ticket.json";

    /// <summary>The chain file: the path itself, or the only chain of the folder it names.</summary>
    /// <exception cref="UsageException">The folder holds no chain, or several.</exception>
    /// <exception cref="UnreadableFileException">The folder cannot be read.</exception>
    public static string Chain(string path)
    {
        if (!Directory.Exists(path))
        {
            return path;
        }

        try
        {
            var chains = Chains(path);
            return chains.Count switch
            {
                1 => chains[0],
                0 => throw None(path),
                _ => throw new UsageException($"{path} holds {chains.Count} chains: {Show.Some([.. chains.Select(c => Path.GetFileName(c))])}. Name the one to print, such as: drumprint print {Quoted(chains[0])}"),
            };
        }
        catch (Exception e) when (FileTrouble.IsFileTrouble(e))
        {
            throw new UnreadableFileException(path, $"this folder cannot be read: {FileReason.Of(e)}.");
        }
    }

    // Hidden files are what a system keeps beside the real ones.
    private static List<string> Chains(string folder) =>
    [
        .. Directory.EnumerateFiles(folder)
            .Where(f => f.EndsWith(ChainEnd, StringComparison.OrdinalIgnoreCase) && !Path.GetFileName(f).StartsWith('.'))
            .Order(StringComparer.Ordinal),
    ];

    private static UsageException None(string folder)
    {
        var above = Path.Combine(folder, "..");
        var chain = Directory.Exists(above) && Chains(above) is [var only] ? $": drumprint print {Quoted(Path.GetRelativePath(".", only))}" : ".";
        return HoldsPrints(folder)
            ? new UsageException($"{folder} holds prints and no chain file. To make them again and compare: drumprint reprint {Quoted(folder)} — to print, name the chain file{chain}")
            : new UsageException($"{folder} holds no chain file, a name that ends in {ChainEnd}. Name the chain file{chain}");
    }

    private static bool HoldsPrints(string folder) =>
        Directory.EnumerateFiles(folder).Any(f => f.EndsWith(TicketEnd, StringComparison.OrdinalIgnoreCase) || (f.EndsWith(".wav", StringComparison.OrdinalIgnoreCase) && IsPrint(f)));

    private static bool IsPrint(string path)
    {
        try
        {
            return PrintPart.Read(path) is not null;
        }
        catch (Exception e) when (e is TicketException or AudioFileException)
        {
            return e is TicketException; // a print, of a form this version cannot read
        }
    }

    private static string Quoted(string path) => path.Contains(' ', StringComparison.Ordinal) ? $"\"{path}\"" : path;
}
