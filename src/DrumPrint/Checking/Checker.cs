using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Pictures;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Printing;
using DrumPrint.Seeking;
using DrumPrint.Session;
using DrumPrint.Tickets;

namespace DrumPrint.Checking;

/// <summary>Looks at a session before and after it is printed.</summary>
public static class Checker
{
    private const double MeterPart = 0.7;
    private const double PairPart = 0.85;

    // Own bars: more than any session has, and what memory holds.
    private const int MostChannels = 8;
    private const int MostHours = 6;

    /// <summary>Checks a chain with its files, or a folder.</summary>
    /// <param name="target">A chain file, a folder that holds one, or a folder of sound files.</param>
    /// <param name="options">How.</param>
    /// <param name="progress">Told how far it is, from any thread.</param>
    /// <param name="cancel">Stops the check.</param>
    /// <exception cref="ChainException">The chain has mistakes.</exception>
    /// <exception cref="UsageException">The folder holds nothing to check.</exception>
    /// <exception cref="OperationCanceledException">The check was stopped.</exception>
    public static CheckReport Check(string target, CheckOptions options, IProgress<PrintProgress>? progress = null, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(target);
        ArgumentNullException.ThrowIfNull(options);
        var isPlain = Directory.Exists(target) && !Directory.EnumerateFiles(target, "*.chain.json").Any();
        return isPlain ? OfFolder(target, options, progress, cancel) : OfChain(target, ChainReader.Read(SessionFolder.Chain(target), reading: options.Reading), options, progress, cancel);
    }

    private static CheckReport OfChain(string target, Chain chain, CheckOptions options, IProgress<PrintProgress>? progress, CancellationToken cancel)
    {
        var folder = options.Prints ?? Path.Combine(chain.Folder, PrintFileName.Folder);
        var prints = TakeList.OfPrints(chain, folder, options.Reading).ToList();
        var ticket = Directory.Exists(folder) ? TicketFiles.ReadableIn(folder).FirstOrDefault(t => t.Chain.Song.Version == chain.Song.Version) : null;
        var hasPrints = ticket is not null || prints.Any(p => !p.IsMissing);
        chain = Settled(chain, options, progress, cancel);
        var takes = TakeList.OfChain(chain, options.Reading).Concat(hasPrints ? prints : []).ToList();
        return Run(target, chain, takes, chain.Song.RateHz, options, hasPrints, ticket, hasPrints ? TakeList.Strangers(folder, prints) : [], progress, cancel);
    }

    // With the numbers that a print would find; where a file is missing, that is what the check has to tell.
    private static Chain Settled(Chain chain, CheckOptions options, IProgress<PrintProgress>? progress, CancellationToken cancel)
    {
        if (!Seeker.IsNeeded(chain))
        {
            return chain;
        }

        try
        {
            var inputs = SessionInputs.Open(chain, options.Reading);
            return new Seeker(inputs, memory: null, Math.Max(1, options.Threads ?? Environment.ProcessorCount), part => progress?.Report(new PrintProgress("Finding what the chain asks for", part)), cancel).Run(chain).Chain;
        }
        catch (Exception e) when (e is InputException or AudioFileException)
        {
            return chain;
        }
    }

    private static CheckReport OfFolder(string folder, CheckOptions options, IProgress<PrintProgress>? progress, CancellationToken cancel)
    {
        var ticket = TicketFiles.ReadableIn(folder).LastOrDefault();
        if (ticket is not null)
        {
            var prints = TakeList.OfPrints(ticket.Chain, folder, options.Reading).ToList();
            return Run(folder, ticket.Chain with { Path = Path.Combine(folder, "…") }, prints, ticket.Chain.Song.RateHz, options, true, ticket, TakeList.Strangers(folder, prints), progress, cancel);
        }

        var takes = TakeList.OfFolder(folder, options.Reading).ToList();
        if (takes.Count == 0)
        {
            throw new UsageException($"{folder} holds no chain and no sound file. Name a chain file, or a folder of WAV, AIFF or FLAC files.");
        }

        var rough = takes.Any(t => t.Kind == TakeKind.Rough);
        takes = rough ? [.. takes.Select(t => t.Kind == TakeKind.Raw ? t with { Kind = TakeKind.Print } : t)] : takes;
        return Run(folder, null, takes, 0, options, rough, null, [], progress, cancel);
    }

    private static CheckReport Run(
        string target, Chain? chain, List<CheckedTake> found, int rateHz, CheckOptions options, bool hasPrints, Ticket? ticket, IReadOnlyList<string> strangers, IProgress<PrintProgress>? progress, CancellationToken cancel)
    {
        var threads = Math.Max(1, options.Threads ?? Environment.ProcessorCount);
        var takes = Measure(found, ticket is not null, threads, progress, cancel);
        rateHz = rateHz > 0 ? rateHz : takes.Where(t => t.Info is not null).GroupBy(t => t.Info!.SampleRate).OrderByDescending(g => g.Count()).FirstOrDefault()?.Key ?? 48000;
        var raws = takes.Where(t => t.IsRaw).GroupBy(t => t.Name).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);
        IReadOnlyList<GateRecord> gates = chain is null || raws.Count == 0
            ? []
            : GateLedger.Of(chain, raws, options.Reading, threads, part => progress?.Report(new PrintProgress("Listening to the gates", PairPart + ((1 - PairPart) * part))), cancel);
        IReadOnlyList<ForecastComb> combs = chain is null || raws.Count == 0 ? [] : CombForecast.Of(chain, raws, options.Reading, threads, cancel);
        using var subject = new CheckSubject(chain, takes, rateHz, cancel) { Ticket = ticket, HasPrints = hasPrints, Strangers = strangers, Gates = gates, Combs = combs };
        Prepare(subject, threads, progress, cancel);
        var findings = new List<Finding>();
        foreach (var check in Rulebook.Checks)
        {
            cancel.ThrowIfCancellationRequested();
            findings.AddRange(check.Find(subject));
        }

        var signed = SignOff.Of(findings, chain?.Accepted ?? []);
        var song = chain?.Song.Title ?? Path.GetFileName(Path.GetFullPath(target).TrimEnd(Path.DirectorySeparatorChar));
        IReadOnlyList<Finding> ordered = [.. signed.Select((f, i) => (f, i)).OrderByDescending(x => x.f.Severity).ThenBy(x => x.i).Select(x => x.f)];
        return new CheckReport(target, song, subject.Tempo, ordered, takes.Count(t => t.Figures is not null), [.. SignOff.Notes(signed, chain, hasPrints && raws.Count > 0)])
        {
            Pictures = options.HasPictures ? PictureTaker.Of(subject, ordered, cancel) : null,
        };
    }

    /// <summary>Reads files to their end and adds what their samples say; one that cannot be read says why.</summary>
    internal static List<CheckedTake> Measure(List<CheckedTake> takes, bool hashed, int threads, IProgress<PrintProgress>? progress, CancellationToken cancel)
    {
        var done = new CheckedTake[takes.Count];
        var parts = new double[takes.Count];
        var gate = new Lock();
        var files = Enumerable.Range(0, takes.Count).GroupBy(i => takes[i].Track?.Channel is null ? (takes[i].Recording, i) : (takes[i].Recording, -1)).Select(g => g.ToList());
        ManyFiles.Do(files, threads, file =>
        {
            var measured = Measure([.. file.Select(i => takes[i])], hashed, part =>
            {
                lock (gate)
                {
                    file.ForEach(i => parts[i] = part);
                    progress?.Report(new PrintProgress("Listening", MeterPart * parts.Sum() / parts.Length));
                }
            }, cancel);
            for (var n = 0; n < file.Count; n++)
            {
                done[file[n]] = measured[n];
            }
        }, cancel);
        return [.. done];
    }

    // Takes of one file: its channels, or one that is all of it.
    private static CheckedTake[] Measure(CheckedTake[] takes, bool hashed, Action<double> progress, CancellationToken cancel)
    {
        if (takes[0].IsMissing || takes[0].IsBarred || takes[0].Problem is not null)
        {
            return takes;
        }

        try
        {
            using (var reader = takes[0].Open(AudioHashes.None))
            {
                takes = [.. takes.Select(t => Opened(t, reader))];
            }

            // It is no part of what is handed over, so nothing but its header counts.
            if (takes[0].Kind == TakeKind.Reference)
            {
                return takes;
            }

            var good = takes.Where(t => t.Problem is null).ToList();
            if (good.Count == 0)
            {
                return takes;
            }

            var figures = TakeMeter.Measure(good[0].Open, [.. good.Select(t => (t.Channel, t.SkippedFrames))], hashed && good[0].IsDelivered, progress, cancel);
            return [.. takes.Select(t => good.IndexOf(t) is >= 0 and var n ? t with { Figures = figures[n] } : t)];
        }
        catch (AudioFileException e)
        {
            return [.. takes.Select(t => t with { Problem = t.Problem ?? e.Message })];
        }
    }

    private static CheckedTake Opened(CheckedTake take, AudioReader reader)
    {
        var info = reader.Info;
        take = take with { Info = info };
        if (take.Kind == TakeKind.Reference)
        {
            return take with { Problem = ReferenceInput.Problem(info) is { } problem ? $"The song's own mix {problem}" : null };
        }

        try
        {
            take = take.Track is null ? take : take with { Channel = ChannelChoice.Of(take.Track, reader) };
        }
        catch (AudioFileException e)
        {
            return take with { Problem = e.Message };
        }

        return info.Frames <= take.SkippedFrames ? take with { Problem = info.Frames == 0 ? "The file holds no samples." : "The file is no longer than the latency that is taken out of it." }
            : IsTooLong(info) ? take with { Problem = FormattableString.Invariant($"The file is {info.Frames / info.SampleRate / 3600} hours long; up to {MostHours} are looked at.") }
            : take.Channels > MostChannels ? take with { Problem = $"The file has {info.Channels} channels; up to {MostChannels} are looked at." }
            : take;
    }

    private static bool IsTooLong(AudioFileInfo info) => info.Frames / info.SampleRate > MostHours * 3600L;

    // All pairs that rules ask for, several at a time.
    private static void Prepare(CheckSubject subject, int threads, IProgress<PrintProgress>? progress, CancellationToken cancel)
    {
        progress?.Report(new PrintProgress("Comparing microphones", MeterPart));
        var pairs = new List<(CheckedTake, CheckedTake)>();
        foreach (var role in new[] { TakeRole.Snare, TakeRole.Hat })
        {
            if (subject.First(role) is { } close)
            {
                pairs.AddRange(subject.RawPairs.SelectMany(p => new[] { (close, p.Left), (close, p.Right) }));
            }
        }

        pairs.AddRange(Rules.MisplacedMicrophone.Pairs(subject));
        subject.Pairs.Prepare(pairs.Distinct(), threads, cancel);
    }
}
