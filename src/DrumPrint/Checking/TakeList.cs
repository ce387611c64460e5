using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Checking.Takes;
using DrumPrint.Delivering;
using DrumPrint.Files;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Checking;

/// <summary>Finds the files to check.</summary>
internal static class TakeList
{
    private static readonly string[] OwnEnds = [TicketFiles.End, ".partial", ".drumprint"];

    /// <summary>Raw recordings, impulses and the mix that a chain names.</summary>
    public static IEnumerable<CheckedTake> OfChain(Chain chain, ReadPolicy reading)
    {
        var reach = new SessionReach(reading, chain.Folder);
        foreach (var track in chain.Tracks)
        {
            IReadOnlyList<CheckedTake> files = [.. track.Files.Select(f => Found(reach, f, new CheckedTake(track.Name, Path.Combine(chain.Folder, f), TakeKind.Raw) { Track = track, Role = RoleOf(track) }))];
            yield return files.FirstOrDefault(f => f.Problem is not null) ?? (track.Punched.Any ? Laid(files) : files[0]);
        }

        foreach (var impulse in chain.Impulses)
        {
            yield return Found(reach, impulse.File, new CheckedTake(impulse.Name, Path.Combine(chain.Folder, impulse.File), TakeKind.Impulse));
        }

        if (chain.Reference is { } reference)
        {
            yield return Found(reach, reference.File, new CheckedTake(reference.Name, Path.Combine(chain.Folder, reference.File), TakeKind.Reference) { Track = reference });
        }
    }

    /// <summary>The files a chain delivers.</summary>
    public static IEnumerable<CheckedTake> OfPrints(Chain chain, string folder, ReadPolicy reading) => PrintSelection.Of(chain, []).All.Select(t => Linked(
        new SessionReach(reading, folder),
        new CheckedTake(FormattableString.Invariant($"{t.Number:00} {t.Name}"), Path.Combine(folder, PrintFileName.Of(t.Number, t.Name, chain.Song)), Kind(t.Kind)) { Print = t.Print, Number = t.Number }));

    /// <summary>The sound files of a folder that nothing describes.</summary>
    public static IEnumerable<CheckedTake> OfFolder(string folder, ReadPolicy reading) => Directory.GetFiles(folder).Where(AudioFileName.IsLikely).Where(f => !Path.GetFileName(f).StartsWith('.')).Order(StringComparer.Ordinal).Select(f =>
    {
        var name = Path.GetFileNameWithoutExtension(f);
        return Linked(new SessionReach(reading, folder), new CheckedTake(name, f, name.Contains("RoughPreBus", StringComparison.OrdinalIgnoreCase) ? TakeKind.Rough : name.Contains("RoughWithBus", StringComparison.OrdinalIgnoreCase) ? TakeKind.RoughWithBus : TakeKind.Raw) { Role = RoleWords.Of(name) });
    });

    /// <summary>What lies in a folder of prints and is none of them, by name.</summary>
    public static IReadOnlyList<string> Strangers(string folder, IEnumerable<CheckedTake> prints)
    {
        var known = prints.Select(p => p.FileName).ToHashSet(StringComparer.Ordinal);
        var earlier = TicketFiles.ReadableIn(folder).SelectMany(t => t.Prints).Select(p => p.FileName).ToHashSet(StringComparer.Ordinal);
        known.UnionWith(Delivered(folder));
        return [.. Directory.EnumerateFileSystemEntries(folder).Select(f => Path.GetFileName(f)).Where(n => !known.Contains(n) && !earlier.Contains(n) && !OwnEnds.Any(e => n.EndsWith(e, StringComparison.OrdinalIgnoreCase))).Order(StringComparer.Ordinal)];
    }

    // What a delivery's manifest names belongs there, folders included. Whether it is whole is for deliver --check to say.
    private static IEnumerable<string> Delivered(string folder)
    {
        try
        {
            var manifest = DeliveryManifest.ReadIn(folder);
            return [.. manifest.Files.Select(f => f.Name.Split('/')[0]), manifest.FileName, SumsFile.Name];
        }
        catch (DeliveryException)
        {
            return [];
        }
    }

    // Of what lies outside the session nothing is looked at.
    private static CheckedTake Found(SessionReach reach, string file, CheckedTake take) =>
        reach.Outside(file) is { } outside ? take with { IsBarred = true, Problem = $"The file is not read: {reach.Advice(outside)}" } : Found(take);

    private static CheckedTake Linked(SessionReach reach, CheckedTake take) =>
        reach.LeadsOut(take.FileName) is { } why ? take with { IsBarred = true, Problem = $"The file is not read: it {why}." } : Found(take);

    private static CheckedTake Found(CheckedTake take)
    {
        if (File.Exists(take.Path))
        {
            return take;
        }

        return NearbyFile.WithOtherAccents(take.Path) is { } same ? take with { Path = same } : take with { IsMissing = true, Problem = "there is no such file." };
    }

    // A recording of several files, that of one channel too: all of them are there.
    private static CheckedTake Laid(IReadOnlyList<CheckedTake> files)
    {
        try
        {
            return files[0] with { Splice = Splice.Read([.. files.Select((f, i) => (f.Track!.Files[i], f.Path))]) };
        }
        catch (AudioFileException e)
        {
            return files[0] with { Problem = e.Message };
        }
    }

    // The chain's word for it, and where that says nothing the file's.
    private static TakeRole RoleOf(Track track) => RoleWords.Of(track.Name) is var role and not TakeRole.Unknown ? role : RoleWords.Of(Path.GetFileNameWithoutExtension(track.File));

    private static TakeKind Kind(PrintKind kind) => kind switch
    {
        PrintKind.Playing => TakeKind.Print,
        PrintKind.Optional => TakeKind.Extra,
        PrintKind.Rough => TakeKind.Rough,
        PrintKind.RoughWithBus => TakeKind.RoughWithBus,
        _ => TakeKind.Click,
    };
}
