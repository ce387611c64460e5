using System.Collections.Concurrent;
using System.Runtime.ExceptionServices;

namespace DrumPrint.Audio;

/// <summary>Works out something for each of many files, several at a time.</summary>
internal static class ManyFiles
{
    /// <param name="paths">The files; one named twice is looked at once.</param>
    /// <param name="threads">Most files at a time.</param>
    /// <param name="work">Told a path, gives what is wanted of it.</param>
    /// <param name="cancel">Stops the work.</param>
    public static IReadOnlyDictionary<string, string> Each(IEnumerable<string> paths, int threads, Func<string, string> work, CancellationToken cancel = default)
    {
        var results = new ConcurrentDictionary<string, string>(StringComparer.Ordinal);
        try
        {
            Parallel.ForEach(
                paths.Distinct(StringComparer.Ordinal),
                new ParallelOptions { MaxDegreeOfParallelism = threads, CancellationToken = cancel },
                path => results[path] = work(path));
        }
        catch (AggregateException e)
        {
            // One file's trouble is enough to tell.
            ExceptionDispatchInfo.Throw(e.InnerExceptions[0]);
        }

        return results;
    }
}
