using System.Diagnostics;
using System.Globalization;
using DrumPrint.Fuzz.Mutating;
using DrumPrint.Fuzz.Targets;

namespace DrumPrint.Fuzz.Driver;

/// <summary>Tries one target for a while: inputs that led to new places are kept and changed further.</summary>
internal sealed class Campaign : IDisposable
{
    // Of the processor's time, for an input of 64 kB; other programs may have the processor meanwhile.
    private const double SlowSeconds = 1;

    private readonly FuzzTarget _target;
    private readonly CoverageMap _map = new();
    private readonly Watch _watch = new();
    private readonly Corpus _corpus;
    private readonly Findings _findings;
    private readonly CurrentInput _current;
    private readonly FuzzRandom _random;
    private readonly Mutator _mutator;
    private readonly string _log;
    private long _runs;
    private long _accepted;
    private double _mostPerByte;
    private double _slowest;

    /// <param name="name">The target.</param>
    /// <param name="folder">Where inputs and findings are kept.</param>
    /// <param name="seed">What chance hangs on.</param>
    public Campaign(string name, string folder, ulong seed)
    {
        _target = FuzzTargets.Make(name);
        _corpus = new Corpus(Repository.File("fixtures", "fuzz", name), Path.Combine(folder, "corpus", name), _target.MostBytes);
        _findings = new Findings(_target, Path.Combine(folder, "findings", name));
        _current = new CurrentInput(Path.Combine(folder, $"{name}.current"), _target.MostBytes);
        _log = Path.Combine(folder, "runs.csv");
        _random = new FuzzRandom(seed);
        _mutator = new Mutator(_random, _target.IsText ? _corpus.Words() : [], _target.MostBytes, _target.IsText);
    }

    /// <summary>Tries until the time is over.</summary>
    /// <returns>Kinds of faults that were found.</returns>
    public int Run(TimeSpan time, CancellationToken stop)
    {
        var clock = Stopwatch.StartNew();
        if (_current.Left() is { } left)
        {
            _findings.Keep(left, new Fault("ended the process", "The process ended while it read this input: a hang, a stack that overflowed, or somebody stopped it."));
            _current.End();
        }

        foreach (var input in _corpus.Inputs.ToList())
        {
            Try(input, isKept: true);
        }

        while (clock.Elapsed < time && !stop.IsCancellationRequested)
        {
            for (var n = 0; n < 64; n++)
            {
                Try(_mutator.Next(_corpus.Choose(_random), _random.Of(_corpus.Inputs)), isKept: false);
            }
        }

        Tell(clock.Elapsed);
        return _findings.Kinds;
    }

    public void Dispose()
    {
        _current.Dispose();
        _watch.Dispose();
        _map.Dispose();
        _target.Dispose();
    }

    private void Try(byte[] input, bool isKept)
    {
        var isAccepted = false;
        _runs++;
        _current.Begin(input);
        _map.Begin();
        _watch.Begin();
        try
        {
            var outcome = _target.Run(input);
            isAccepted = outcome.IsAccepted;
            _accepted += isAccepted ? 1 : 0;
            _mostPerByte = Math.Max(_mostPerByte, (outcome.AllocatedBytes - _target.BaseBytes / 2.0) / Math.Max(1, input.Length));
        }
#pragma warning disable CA1031 // Every exception that comes out is a fault.
        catch (Exception e)
#pragma warning restore CA1031
        {
            _watch.End();
            _findings.Add(input, e);
        }

        var taken = _watch.End().TotalSeconds;
        _current.End();
        var isNew = _map.Take();
        if (isNew && !isKept)
        {
            _corpus.Add(input);
        }

        if (isAccepted && (isNew || isKept))
        {
            _corpus.Accepted(input);
        }

        if (taken > Math.Max(_slowest, SlowSeconds / 10) && Again(input) is var seconds && seconds > SlowSeconds)
        {
            _findings.Keep(input, new Fault("slow", string.Create(CultureInfo.InvariantCulture, $"{seconds:0.0} s for {input.Length} bytes.")));
        }
    }

    // The quickest of three: code is compiled and memory collected in between.
    private double Again(byte[] input)
    {
        var best = double.MaxValue;
        for (var n = 0; n < 3; n++)
        {
            var begun = Environment.CpuUsage.TotalTime;
            try
            {
                _target.Run(input);
            }
#pragma warning disable CA1031 // Told already.
            catch (Exception)
#pragma warning restore CA1031
            {
            }

            best = Math.Min(best, (Environment.CpuUsage.TotalTime - begun).TotalSeconds);
        }

        _slowest = Math.Max(_slowest, best);
        return best;
    }

    private void Tell(TimeSpan time)
    {
        var line = string.Create(
            CultureInfo.InvariantCulture,
            $"{_target.Name},{_runs},{time.TotalSeconds:0},{Environment.CpuUsage.TotalTime.TotalSeconds:0},{_accepted},{_map.Steps},{_corpus.Inputs.Count},{_findings.Kinds},{_slowest * 1000:0},{Math.Max(0, _mostPerByte):0}");
        if (!File.Exists(_log))
        {
            File.WriteAllText(_log, "target,runs,seconds,processor_seconds,accepted,steps,inputs,findings,slowest_ms,most_bytes_per_byte\n");
        }

        File.AppendAllText(_log, line + "\n");
        Console.WriteLine(line);
    }
}
