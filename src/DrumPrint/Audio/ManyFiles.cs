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
    public static IReadOnlyDictionary<string, T> Each<T>(IEnumerable<string> paths, int threads, Func<string, T> work, CancellationToken cancel = default)
    {
        var results = new ConcurrentDictionary<string, T>(StringComparer.Ordinal);
        Do(paths.Distinct(StringComparer.Ordinal), threads, path => results[path] = work(path), cancel);
        return results;
    }

    /// <summary>Does something with each of many things, several at a time.</summary>
    /// <param name="things">The things.</param>
    /// <param name="threads">Most at a time.</param>
    /// <param name="work">Told a thing.</param>
    /// <param name="cancel">Stops the work.</param>
    public static void Do<T>(IEnumerable<T> things, int threads, Action<T> work, CancellationToken cancel = default)
    {
        try
        {
            Parallel.ForEach(things, new ParallelOptions { MaxDegreeOfParallelism = threads, CancellationToken = cancel }, work);
        }
        catch (AggregateException e)
        {
            // One file's trouble is enough to tell.
            ExceptionDispatchInfo.Throw(e.InnerExceptions[0]);
        }
    }
}
