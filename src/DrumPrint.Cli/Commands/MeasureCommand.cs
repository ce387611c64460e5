using System.CommandLine;
using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Chains.Reading;
using DrumPrint.Cli.Output;
using DrumPrint.Files;
using DrumPrint.Measuring;

namespace DrumPrint.Cli.Commands;

/// <summary><c>measure FILE…</c>: sound files in figures.</summary>
internal static class MeasureCommand
{
    private static readonly string[] ChainEnds = [".json", ".jsonc"];

    public static Command Create()
    {
        var paths = new Argument<string[]>("FILE") { Description = "Sound files, WAV (RF64, BWF), AIFF or FLAC, or folders of them.", Arity = ArgumentArity.OneOrMore };
        var json = new Option<bool>("--json") { Description = "Write the figures as JSON to standard output; nothing else goes there." };
        var quiet = new Option<bool>("--quiet") { Description = "No progress and no table; only what went wrong, and the files and JSON that were asked for." };
        var hits = new Option<bool>("--hits") { Description = "Measure hits, ghosts and spill instead, to read a threshold from; the files are microphones of one take, and each is held against the others. With one chain file: every hit under which a layer plays a sound, and what spill takes from hits." };
        var keyHigh = new Option<double?>("--key-high-pass") { Description = "With --hits: as a gate hears it whose key has this high-pass.", HelpName = "HZ" };
        var keyLow = new Option<double?>("--key-low-pass") { Description = "With --hits: as a gate hears it whose key has this low-pass.", HelpName = "HZ" };
        var picture = new Option<string?>("--picture") { Description = "With --hits: also draw it: an SVG file, which is replaced.", HelpName = "FILE.svg" };
        var command = new Command("measure", "Measure sound files: length, rate, loudness, peaks, crest, offset (DC), left against right, decay; or the levels of hits, ghosts and spill.")
        {
            paths, hits, keyHigh, keyLow, picture, json, quiet,
        };
        Guard.Run(command, (parsed, cancel) => UnfinishedSets.Tell(parsed.GetRequiredValue(paths), () =>
        {
            if (parsed.GetValue(hits) && parsed.GetRequiredValue(paths) is [var chain] && ChainEnds.Any(end => chain.EndsWith(end, StringComparison.OrdinalIgnoreCase)))
            {
                return new Option[] { keyHigh, keyLow, picture }.FirstOrDefault(o => parsed.GetResult(o) is { Implicit: false }) is { } foreign
                    ? throw new UsageException($"{foreign.Name} goes with recordings only; what a chain hears goes through its own filters.")
                    : OfChain(chain, parsed.GetValue(json), parsed.GetValue(quiet), cancel);
            }

            var found = Found(parsed.GetRequiredValue(paths));
            string[] named = [.. found.SelectMany(f => f.Files)];
            string[] problems = [.. found.SelectMany(f => f.Problems)];
            if (parsed.GetValue(hits))
            {
                Tell(problems);
                if (named.Length == 0)
                {
                    return ExitCode.File;
                }

                var code = Hits(named, parsed.GetValue(keyHigh), parsed.GetValue(keyLow), parsed.GetValue(picture), parsed.GetValue(json), parsed.GetValue(quiet), cancel);
                return problems.Length == 0 ? code : ExitCode.File;
            }

            if (new Option[] { keyHigh, keyLow, picture }.FirstOrDefault(o => parsed.GetResult(o) is { Implicit: false }) is { } alone)
            {
                throw new UsageException($"{alone.Name} goes with --hits only.");
            }

            var results = ProgressDisplay.Run(!parsed.GetValue(json) && !parsed.GetValue(quiet) && !Terminal.IsErrorRedirected, progress => Measure(named, progress, cancel));
            FileMeasurement[] files = [.. results.Select(r => r.File).OfType<FileMeasurement>()];
            if (parsed.GetValue(json))
            {
                MeasureJson.Write(Terminal.Json(), files);
            }
            else if (files.Length > 0 && !parsed.GetValue(quiet))
            {
                MeasureScreen.Write(files);
            }

            Tell([.. problems, .. results.Select(r => r.Problem).OfType<string>()]);
            return files.Length == results.Length + problems.Length ? ExitCode.Done : ExitCode.File;
        }));
        return command;
    }

    private static int OfChain(string path, bool asJson, bool isQuiet, CancellationToken cancel)
    {
        var reading = UserSettings.Read().Policy;
        var chain = ChainReader.Read(path, reading: reading);
        var (layers, spills) = ProgressDisplay.Run(
            !asJson && !isQuiet && !Terminal.IsErrorRedirected,
            progress => (LayerLedger.Of(chain, reading, progress, cancel), SpillForecast.Of(chain, reading, progress, cancel)));
        if (layers.Count + spills.Count == 0)
        {
            throw new UsageException($"{path}: no bus plays a sound under hits or turns spill down; --hits with a chain tells of 'layer' and 'spill'. For levels of hits name recordings.");
        }

        if (asJson)
        {
            ChainHitsJson.Write(Terminal.Json(), layers, spills);
        }
        else if (!isQuiet)
        {
            LayersScreen.Write(layers);
            SpillScreen.Write(spills);
        }

        return ExitCode.Done;
    }

    private static void Tell(string[] problems)
    {
        foreach (var problem in problems)
        {
            Terminal.Say(problem);
        }
    }

    private static int Hits(string[] files, double? keyHighHz, double? keyLowHz, string? picture, bool asJson, bool isQuiet, CancellationToken cancel)
    {
        var reports = ProgressDisplay.Run(!asJson && !isQuiet && !Terminal.IsErrorRedirected, progress => HitMeter.Measure(files, keyHighHz, keyLowHz, progress, cancel));
        if (picture is not null)
        {
            PictureFile.Write(picture, HitPicture.Svg(reports));
        }

        if (asJson)
        {
            HitsJson.Write(Terminal.Json(), reports);
        }
        else if (!isQuiet)
        {
            HitsScreen.Write(reports);
        }

        return ExitCode.Done;
    }

    // A folder stands for the sound files in it; one without any is told of like a file that cannot be read.
    private static SoundFolder[] Found(string[] paths)
    {
        var reading = UserSettings.Read().Policy;
        return [.. paths.Select(p => SoundFolder.Of(p, reading))];
    }

    // A file that cannot be read does not keep the others from being measured.
    private static (FileMeasurement? File, string? Problem)[] Measure(string[] paths, Action<string, double> report, CancellationToken cancel)
    {
        var results = new (FileMeasurement?, string?)[paths.Length];
        var parts = new double[paths.Length];
        var gate = new Lock();
        try
        {
            Parallel.For(0, paths.Length, new ParallelOptions { CancellationToken = cancel, MaxDegreeOfParallelism = Environment.ProcessorCount }, i =>
            {
                try
                {
                    var done = 0L;
                    results[i] = (FileMeter.Measure(paths[i], (frames, all) => Report(i, (double)(done += frames) / all), cancel), null);
                }
                catch (AudioFileException e)
                {
                    results[i] = (null, Directory.Exists(paths[i]) ? $"{paths[i]}: there is no WAV, AIFF or FLAC file in this folder." : e.Message);
                }
            });
        }
        catch (AggregateException e) when (e.InnerExceptions.All(x => x is OperationCanceledException))
        {
            throw new OperationCanceledException(cancel);
        }

        return results;

        void Report(int file, double part)
        {
            lock (gate)
            {
                parts[file] = part;
                report("Measuring", parts.Sum() / parts.Length);
            }
        }
    }
}
