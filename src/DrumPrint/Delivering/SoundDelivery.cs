using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Dsp.Metering;
using DrumPrint.Dsp.Numerics;
using DrumPrint.Measuring;
using DrumPrint.Tickets;

namespace DrumPrint.Delivering;

/// <summary>Brings prints and dry twins into a delivery, and reads them back.</summary>
/// <remarks>Each print is copied and the copy is held against the ticket; it is delivered as it is, or a conversion of it. What is told of a file, its
/// proof and its hashes, is told of the delivered one.</remarks>
/// <param name="chain">The chain.</param>
/// <param name="options">What was asked for.</param>
/// <param name="form">In what form.</param>
/// <param name="staged">The delivery.</param>
/// <param name="prints">The prints.</param>
/// <param name="progress">Told how far it is.</param>
/// <param name="cancel">Stops it.</param>
internal sealed class SoundDelivery(Chain chain, DeliveryOptions options, DeliveredForm form, StagedFolder staged, ProvedPrints prints, Action<string, double>? progress, CancellationToken cancel)
{
    private const string WorkFolder = "work";
    private const double StepsPerDb = 10;

    private readonly List<DeliveredFile> _files = [];
    private readonly Dictionary<string, SoundReading> _readings = new(StringComparer.Ordinal);
    private readonly Dictionary<string, WaveOutline> _outlines = new(StringComparer.Ordinal);
    private readonly Dictionary<int, double> _lowered = [];

    /// <summary>Every sound, in the order of the ticket, dry twins last.</summary>
    public IReadOnlyList<DeliveredFile> Files => _files;

    /// <summary>What was measured, by file name.</summary>
    public IReadOnlyDictionary<string, SoundReading> Readings => _readings;

    /// <summary>Waveforms of the prints, by name of the file or of its left side.</summary>
    public IReadOnlyDictionary<string, WaveOutline> Outlines => _outlines;

    /// <summary>By how much dry twins were lowered that would have gone above 0 dBFS, in dB, by number.</summary>
    public IReadOnlyDictionary<int, double> Lowered => _lowered;

    private bool IsAsPrinted => form.IsAsPrinted(prints.Ticket);

    public void Run()
    {
        var recorded = prints.Ticket.Prints;
        var work = staged.PathOf(WorkFolder);
        if (!IsAsPrinted || options.WithDry)
        {
            options.Steps.MakeFolder(work);
        }

        Copy(recorded);
        foreach (var print in recorded.Where(_ => !IsAsPrinted))
        {
            progress?.Invoke("Converting", (double)_files.Count / recorded.Count);
            _files.AddRange(Converted(print));
        }

        if (options.WithDry)
        {
            Dry(work);
        }

        if (Directory.Exists(work))
        {
            options.Steps.Do("delete the working folder", () => Directory.Delete(work, recursive: true));
        }

        ReadBack();
    }

    private string CopyOf(RecordedPrint print) => staged.PathOf(IsAsPrinted ? NameOf(print) : Path.Combine(WorkFolder, print.FileName));

    private string NameOf(RecordedPrint print, SoundSide side = SoundSide.Whole) => DeliveredName.Of(chain, print.Number, print.Name, side);

    private void Copy(IReadOnlyList<RecordedPrint> recorded)
    {
        for (var i = 0; i < recorded.Count; i++)
        {
            progress?.Invoke("Copying", (double)i / recorded.Count);
            var source = Path.Combine(prints.Folder, recorded[i].FileName);
            if (!File.Exists(source))
            {
                throw new UsageException($"{source}: the ticket names this print, and it is not there. Print again: drumprint print {chain.Path}");
            }

            staged.Copy(source, Path.GetRelativePath(staged.Folder, CopyOf(recorded[i])), cancel);
        }

        var (files, outlines) = (new DeliveredFile[recorded.Count], new WaveOutline[recorded.Count]);
        Each(recorded.Count, i => (files[i], outlines[i]) = (Proved(CopyOf(recorded[i]), recorded[i]), WaveOutline.Of(CopyOf(recorded[i]), cancel)));
        for (var i = 0; i < recorded.Count; i++)
        {
            _outlines.Add(NameOf(recorded[i], Sides(recorded[i].Channels)[0]), outlines[i]);
        }

        _files.AddRange(files.Where(_ => IsAsPrinted));
    }

    private DeliveredFile Proved(string path, RecordedPrint print)
    {
        using var reader = Opened(path, print);
        if (reader.Info.Channels > 2)
        {
            throw prints.NotProved(print, chain);
        }

        using var sums = SoundSums.Of(reader, prints.Ticket.Encoding, cancel);
        var audio = sums.AudioSha256();
        if (reader.FileSha256 != print.FileSha256 || audio != print.AudioSha256 || reader.Info.Frames != prints.Ticket.Frames || reader.Info.Channels != print.Channels || reader.Info.SampleRate != chain.Song.RateHz)
        {
            throw prints.NotProved(print, chain);
        }

        return new DeliveredFile(Path.GetFileName(path), DeliveredKinds.Of(print.Kind), new FileInfo(path).Length, print.FileSha256)
        {
            Number = print.Number,
            Title = print.Name,
            Sound = new DeliveredSound(reader.Info.Channels, reader.Info.Frames, prints.Ticket.Encoding, audio, string.Concat(sums.Pieces)),
        };
    }

    private AudioReader Opened(string path, RecordedPrint print)
    {
        try
        {
            return AudioReader.Open(path, AudioHashes.File);
        }
        catch (AudioFileException)
        {
            throw prints.NotProved(print, chain);
        }
    }

    private SoundSide[] Sides(int channels) => form.SplitsStereo && channels == 2 ? [SoundSide.Left, SoundSide.Right] : [SoundSide.Whole];

    private List<DeliveredFile> Converted(RecordedPrint print)
    {
        var sides = Sides(print.Channels);
        string[] names = [.. sides.Select(s => NameOf(print, s))];
        var over = Decibels.FromGain(Convert(CopyOf(print), names, print.Number, print.Name, 1));
        return over > 0 && !form.Encoding.IsFloat()
            ? throw new UsageException(FormattableString.Invariant($"{chain.Path}: brought to {form.RateHz} Hz, {print.FileName} would peak {over:0.00} dB above 0 dBFS, for a peak may lie between two samples. Deliver it with --bits 32f, which holds it, or print with \"over_at\": \"true_peak\" under output, which keeps it below."))
            : [.. names.Select((n, i) => Told(n, DeliveredKinds.Of(print.Kind), print.Number, print.Name, sides[i]))];
    }

    // A twin is no part of the sum: what would go above 0 dBFS is lowered alone, and that is told.
    private void Dry(string work)
    {
        progress?.Invoke("Rendering dry twins", 0);
        var twins = DryTwins.Render(chain, prints.Ticket, Path.Combine(work, "dry"), options.Reading, options.Steps, part => progress?.Invoke("Rendering dry twins", part), cancel);
        foreach (var print in chain.Prints.Where(p => twins.ContainsKey(p.Number)))
        {
            var sides = Sides(Channels(twins[print.Number]));
            string[] names = [.. sides.Select(s => DeliveredName.OfDry(chain, print.Number, print.Name, s))];
            var over = Decibels.FromGain(Convert(twins[print.Number], names, print.Number, print.Name, 1));
            if (over > 0 && !form.Encoding.IsFloat())
            {
                var down = Math.Ceiling(over * StepsPerDb) / StepsPerDb;
                Convert(twins[print.Number], names, print.Number, print.Name, Decibels.ToGain(-down));
                _lowered.Add(print.Number, down);
            }

            _files.AddRange(names.Select((n, i) => Told(n, DeliveredKind.Dry, print.Number, print.Name, sides[i])));
        }
    }

    private static int Channels(string path)
    {
        using var reader = AudioReader.Open(path, AudioHashes.None);
        return reader.Info.Channels;
    }

    private double Convert(string from, string[] names, int number, string name, double gain)
    {
        using var conversion = new SoundConversion(
            from, [.. names.Select(staged.PathOf)], form, chain.Output.Dither, $"delivery/{names[0]}", FormattableString.Invariant($"{chain.Song.Code} v{chain.Song.Version}: {number:00} {name}"), gain, options.Steps);
        return conversion.Run(cancel);
    }

    private DeliveredFile Told(string name, DeliveredKind kind, int number, string title, SoundSide side)
    {
        var path = staged.PathOf(name);
        return new DeliveredFile(name, kind, new FileInfo(path).Length, FileHash.Sha256(path, cancel))
        {
            Number = number,
            Title = title,
            Side = side,
            Sound = FolderCheck.SoundIn(path, form.Encoding, cancel),
        };
    }

    private void ReadBack()
    {
        var (readings, done) = (new SoundReading[_files.Count], 0);
        Each(_files.Count, i =>
        {
            readings[i] = FileMeter.Measure(staged.PathOf(_files[i].Name), null, cancel).Sound;
            progress?.Invoke("Reading back", (double)Interlocked.Increment(ref done) / _files.Count);
        });
        for (var i = 0; i < readings.Length; i++)
        {
            _readings.Add(_files[i].Name, readings[i]);
        }
    }

    private void Each(int count, Action<int> job)
    {
        try
        {
            Parallel.For(0, count, new ParallelOptions { CancellationToken = cancel, MaxDegreeOfParallelism = Environment.ProcessorCount }, job);
        }
        catch (AggregateException e)
        {
            throw e.InnerExceptions.OfType<DrumPrintException>().OrderBy(x => x.Message, StringComparer.Ordinal).FirstOrDefault() ?? e.InnerExceptions[0];
        }
    }
}
