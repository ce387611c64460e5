using System.Buffers;

namespace DrumPrint.Files;

/// <summary>Says where a name that came with somebody's file may lead: into one folder, by no link, and nowhere else.</summary>
internal static class ReceivedName
{
    private static readonly SearchValues<char> Forbidden = SearchValues.Create("/\\:<>\"|?*");

    private static readonly string[] Devices = ["CON", "PRN", "AUX", "NUL", "CONIN$", "CONOUT$"];

    /// <summary>Whether a text names a file of a folder by itself: no folder, no drive, nothing hidden, nothing that a system keeps for its devices.</summary>
    public static bool IsBare(string name) => name.Length > 0 && name[0] != '.' && IsStep(name);

    /// <summary>Why nothing may be written under a name; null when it may.</summary>
    /// <param name="folder">The folder that the user named.</param>
    /// <param name="name">The path from there, with <c>/</c> between its steps.</param>
    public static string? Trouble(string folder, string name)
    {
        if (Path.IsPathRooted(name) || name.Length > 1 && name[1] == ':')
        {
            return "it is an absolute path";
        }

        var steps = name.Split('/', '\\');
        if (steps.Contains(".."))
        {
            return "it leads out of that folder by ..";
        }

        if (steps.FirstOrDefault(s => s.StartsWith('.')) is { } hidden)
        {
            return $"{hidden} would be a hidden file or folder, and programs obey such files";
        }

        if (name.Contains('\\') || !steps.All(IsStep))
        {
            return "it is no file name that is safe on every system";
        }

        var path = folder;
        foreach (var step in steps)
        {
            path = Path.Combine(path, step);
            if (new FileInfo(path).LinkTarget is not null)
            {
                return $"{path} is a link, and could lead anywhere";
            }
        }

        return null;
    }

    private static bool IsStep(string step) => step.Length > 0
        && step is not ("." or "..")
        && !step.AsSpan().ContainsAny(Forbidden)
        && step[^1] is not ('.' or ' ')
        && !step.Any(char.IsControl)
        && !IsDevice(step.Split('.')[0].TrimEnd());

    private static bool IsDevice(string stem) =>
        Devices.Contains(stem, StringComparer.OrdinalIgnoreCase)
        || stem.Length == 4 && (stem.StartsWith("COM", StringComparison.OrdinalIgnoreCase) || stem.StartsWith("LPT", StringComparison.OrdinalIgnoreCase)) && (char.IsAsciiDigit(stem[3]) || stem[3] is '¹' or '²' or '³');
}
