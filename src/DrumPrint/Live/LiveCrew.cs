using System.Runtime.ExceptionServices;
using DrumPrint.Rendering;

namespace DrumPrint.Live;

/// <summary>Runs steps up to a block on several threads, each as soon as what it reads is there.</summary>
/// <remarks>The order in which steps run changes no sample: each makes its own blocks in order. Who waits here sleeps at once: a thread that first asks
/// again and again is put behind all others by some systems, also when it has something to do again.</remarks>
internal sealed class LiveCrew
{
    private const int MostThreads = 4;

    // So few that a thread is not worth its beginning.
    private const int FewBlocks = 4;

    private readonly object _lock = new();
    private readonly LiveStep[] _steps;
    private readonly LiveStep[][] _inputs;
    private readonly LiveStep[][] _readers;
    private readonly bool[] _isTaken;
    private readonly BlockPool _pool;
    private readonly long _to;
    private readonly GivesWay? _way;
    private int _waiting;
    private Exception? _fault;

    private bool IsOff => _way?.IsOff() == true;

    private LiveCrew(LiveStep[] steps, long to, BlockPool pool, GivesWay? way)
    {
        (_steps, _to, _pool, _way, _isTaken) = (steps, to, pool, way, new bool[steps.Length]);
        var of = steps.ToDictionary(s => s.Node);
        _inputs = [.. steps.Select(s => s.Node.Inputs.Distinct().Select(of.GetValueOrDefault).OfType<LiveStep>().ToArray())];
        var readers = _inputs.SelectMany((inputs, reader) => inputs.Select(input => (input, reader))).ToLookup(p => p.input, p => steps[p.reader]);
        _readers = [.. steps.Select(s => readers[s].ToArray())];
    }

    /// <summary>Runs until every step has come to the block.</summary>
    /// <param name="steps">The steps, inputs before those that read them.</param>
    /// <param name="to">One past the last block.</param>
    /// <param name="pool">Memory.</param>
    /// <param name="way">How it gives way to what plays meanwhile; null when nothing plays that must not wait.</param>
    /// <returns>Whether every step came there; not when it was given up.</returns>
    public static bool Run(LiveStep[] steps, long to, BlockPool pool, GivesWay? way) => new LiveCrew(steps, to, pool, way).Run();

    private bool Run()
    {
        var givesWay = _way is not null;
        if (_steps.Length == 0 || _to - _steps.Min(s => s.Next) <= FewBlocks)
        {
            Work();
        }
        else
        {
            // Where something plays, the thread that asks gives way too.
            var threads = _way is { IsAlone: true } ? 1 : Math.Clamp(Environment.ProcessorCount, 1, MostThreads);
            Thread[] others = [.. Enumerable.Range(0, givesWay ? threads : threads - 1).Select(_ => SideThread.Start(Work, givesWay))];
            if (!givesWay)
            {
                Work();
            }

            Array.ForEach(others, other => other.Join());
        }

        if (_fault is not null)
        {
            ExceptionDispatchInfo.Throw(_fault);
        }

        return !IsOff;
    }

    private void Work()
    {
        while (true)
        {
            int taken;
            lock (_lock)
            {
                if (_fault is not null || IsOff || Array.TrueForAll(_steps, s => s.Next >= _to))
                {
                    Wake();
                    return;
                }

                taken = Take();
                if (taken < 0)
                {
                    _waiting++;
                    Monitor.Wait(_lock);
                    continue;
                }
            }

            try
            {
                // As far as the others allow: what was true for a block stays true.
                do
                {
                    _way?.Rest();
                    _steps[taken].Make(_pool);
                }
                while (CanRun(taken) && !IsOff);
            }
            catch (Exception e)
            {
                lock (_lock)
                {
                    _fault ??= e;
                }
            }

            lock (_lock)
            {
                _isTaken[taken] = false;
                Wake();
            }
        }
    }

    private void Wake()
    {
        if (_waiting > 0)
        {
            Monitor.PulseAll(_lock);
            _waiting = 0;
        }
    }

    // The one that is furthest back: what is made then is read soon.
    private int Take()
    {
        var best = -1;
        for (var n = 0; n < _steps.Length; n++)
        {
            if (!_isTaken[n] && (best < 0 || _steps[n].Next < _steps[best].Next) && CanRun(n))
            {
                best = n;
            }
        }

        if (best >= 0)
        {
            _isTaken[best] = true;
        }

        return best;
    }

    // Its inputs are there, and what it would write over has been read.
    private bool CanRun(int n)
    {
        var (step, block) = (_steps[n], _steps[n].Next);
        if (block >= _to)
        {
            return false;
        }

        foreach (var input in _inputs[n])
        {
            if (input.Next <= block)
            {
                return false;
            }
        }

        foreach (var reader in _readers[n])
        {
            if (reader.Next <= block - step.Node.KeptBlocks)
            {
                return false;
            }
        }

        return true;
    }
}
