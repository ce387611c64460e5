using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Comparing.Measuring;
using DrumPrint.Comparing.Pairs;
using DrumPrint.Comparing.Targets;
using DrumPrint.Language;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Comparing;

/// <summary>Holds two chains, prints or folders of prints against each other, at matched level.</summary>
public static class Comparer
{
    /// <summary>Compares.</summary>
    /// <param name="a">A chain, a sound file, a folder of prints or a ticket.</param>
    /// <param name="b">The same kind of thing; null when a part of chain A is left out.</param>
    /// <param name="options">What, where and how.</param>
    /// <param name="progress">Told how far it is, from any thread.</param>
    /// <param name="cancel">Stops the run; temporary files are removed.</param>
    /// <exception cref="UsageException">The targets or options do not go together.</exception>
    /// <exception cref="ChainException">A chain has mistakes.</exception>
    /// <exception cref="InputException">Raw tracks or impulses are missing or do not fit.</exception>
    /// <exception cref="AudioFileException">A file cannot be read.</exception>
    /// <exception cref="TicketException">A ticket cannot be read.</exception>
    public static ComparisonReport Compare(string a, string? b, ComparisonOptions options, IProgress<PrintProgress>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(a);
        ArgumentNullException.ThrowIfNull(options);
        if (Math.Abs(options.TrimDb) > 3)
        {
            throw new UsageException("--trim takes −3 to 3 dB: it is for the last tenths that no meter gets right.");
        }

        if (options.TrimDb != 0 && options.Match == LevelMatch.TrueLevel)
        {
            throw new UsageException("--trim goes on top of matched levels; --match true-level leaves both sides as they are. Leave one of the two out.");
        }

        var kind = CompareTarget.KindOf(a);
        if (options.Without is not null)
        {
            return (kind, b) switch
            {
                (TargetKind.Chain, null) => ChainComparison.Compare(a, options, progress, cancel),
                (_, null) => throw new UsageException($"--without leaves out a part of a chain; {a} is {CompareTarget.Words(kind)}."),
                _ => throw new UsageException("--without compares one chain with itself; give no second target."),
            };
        }

        if (b is null)
        {
            throw new UsageException("Give two targets, or one chain and --without.");
        }

        var other = CompareTarget.KindOf(b);
        if (kind != other)
        {
            throw new UsageException($"{a} is {CompareTarget.Words(kind)}, {b} is {CompareTarget.Words(other)}. Both sides must be the same kind of thing.");
        }

        return kind switch
        {
            TargetKind.Chain => ChainComparison.Compare(a, b, options, progress, cancel),
            TargetKind.Folder => FolderComparison.Compare(a, b, options, progress, cancel),
            _ => Files(a, b, options, progress),
        };
    }

    private static ComparisonReport Files(string pathA, string pathB, ComparisonOptions options, IProgress<PrintProgress>? progress)
    {
        if (options.Print is not null)
        {
            throw new UsageException("--print chooses one of many prints; these are two single files.");
        }

        progress?.Report(new PrintProgress("Comparing", 0));
        var (nameA, nameB) = CompareTarget.Names(pathA, pathB);
        var (a, b) = (SideFile.Open(pathA, nameA), SideFile.Open(pathB, nameB));
        var comparison = PairMeasurement.Of("", a, b, PairMeasurement.Choose(a, b, options), options);
        comparison = comparison with { IsWholeIdentical = PairMeasurement.IsWhole(comparison, a, b) };
        var notes = new List<string>();
        if (a.Info.Channels != b.Info.Channels)
        {
            notes.Add($"A has {Words.Count(a.Info.Channels, "channel")}, B {b.Info.Channels}; a mono side is heard and measured on both.");
        }

        notes.AddRange(new[] { (Side: "A", File: a), (Side: "B", File: b) }.Where(s => s.File.Info.Remark is not null).Select(s => $"{s.Side}: {s.File.Info.Remark}"));
        return new ComparisonReport(comparison, [], [], notes)
        {
            IsOfFiles = true,
            Overview = options.ForPage ? SongOverview.Of(nameA, a, b, a.Tempo ?? b.Tempo) : null,
        };
    }
}
