using DrumPrint.Audio;
using DrumPrint.Listening;

namespace DrumPrint.Beginning;

/// <summary>Finds files that are one take of one microphone, punched in: takes by their names, one after another by their time stamps.</summary>
/// <remarks>A recorder that stamps the time of day gives whole takes such stamps too. So another file must sound through from the first to
/// the last, or the gaps must be short. Common practice, no source.</remarks>
internal static class PunchedTakes
{
    private const double LongestGapS = 2;

    /// <summary>Each of them: its files in order of time.</summary>
    /// <param name="found">All files.</param>
    /// <param name="name">What a file's name says.</param>
    public static IReadOnlyList<IReadOnlyList<FoundSound>> Among(IReadOnlyList<FoundSound> found, Func<string, MicrophoneName> name)
    {
        var stamped = found.Where(f => f.Info.Broadcast is not null && f.Channels.Count == 0).Select(f => (File: f, Name: name(f.Path))).Where(f => f.Name.Role != Role.Unknown);
        return
        [
            .. stamped.GroupBy(f => (f.Name.Stem, f.Name.Role, f.Name.Standing, f.Name.Side, f.Name.Number, f.File.Info.SampleRate, f.File.Info.Channels, f.File.Info.Encoding))
                .Where(g => g.Count() > 1 && g.Any(f => f.Name.Take > 0))
                .Select(g => (IReadOnlyList<FoundSound>)[.. g.Select(f => f.File).OrderBy(Start).ThenBy(f => f.Path, StringComparer.Ordinal)])
                .Where(g => IsOneTake(g, found)),
        ];
    }

    private static bool IsOneTake(IReadOnlyList<FoundSound> files, IReadOnlyList<FoundSound> all)
    {
        List<double> gaps = [.. files.Zip(files.Skip(1), (a, b) => Start(b) - End(a))];
        return gaps.TrueForAll(g => g >= 0)
            && (gaps.TrueForAll(g => g <= LongestGapS) || all.Any(f => f.Info.Broadcast is not null && Start(f) <= End(files[0]) && End(f) >= Start(files[^1]) && !files.Contains(f)));
    }

    private static double Start(FoundSound file) => (double)file.Info.Broadcast!.TimeReference / file.Info.SampleRate;

    private static double End(FoundSound file) => Start(file) + ((double)file.Info.Frames / file.Info.SampleRate);
}
