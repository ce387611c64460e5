using System.Runtime.InteropServices;

namespace DrumPrint.Live;

/// <summary>Runs long work on a thread of its own, which gives way to what plays.</summary>
/// <remarks>The shared threads of the runtime carry the sound to the page. One of two that computes for a tenth of a second would keep it
/// waiting.</remarks>
internal static class SideThread
{
    // A third of the share of one that plays, where both want the same core. Less would hold up the sound too: when the runtime
    // collects memory, everything waits until each thread has come as far as it may be stopped.
    private const int Niceness = 5;
    private const int OfProcess = 0;
    private const int ThisThread = 0;

    /// <summary>Begins work; the task ends with it, or with what it throws.</summary>
    /// <param name="work">The work.</param>
    /// <param name="givesWay">Whether something plays meanwhile that must not wait.</param>
    public static Task Run(Action work, bool givesWay = true)
    {
        var done = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        Start(
            () =>
            {
                try
                {
                    work();
                    done.SetResult();
                }
                catch (Exception e)
                {
                    done.SetException(e);
                }
            },
            givesWay);
        return done.Task;
    }

    /// <summary>Begins work that throws nothing.</summary>
    /// <param name="work">The work.</param>
    /// <param name="givesWay">Whether something plays meanwhile that must not wait.</param>
    /// <returns>The thread, to be joined.</returns>
    public static Thread Start(Action work, bool givesWay)
    {
        var thread = new Thread(() =>
        {
            if (givesWay)
            {
                GiveWay();
            }

            work();
        })
        { IsBackground = true, Name = "beside the sound", Priority = givesWay ? ThreadPriority.BelowNormal : ThreadPriority.Normal };
        thread.Start();
        return thread;
    }

    /// <summary>Begins work that nobody waits for.</summary>
    /// <param name="name">What the thread is called.</param>
    /// <param name="work">The work; it throws nothing.</param>
    public static void RunLast(string name, Action work) => new Thread(() =>
    {
        GiveWay();
        work();
    })
    { IsBackground = true, Name = name, Priority = ThreadPriority.Lowest }.Start();

    // On Linux the runtime leaves the priority of a thread alone, and the system's own word for it means one thread.
    private static void GiveWay()
    {
        if (OperatingSystem.IsLinux())
        {
            _ = SetPriority(OfProcess, ThisThread, Niceness);
        }
    }

    [DllImport("libc", EntryPoint = "setpriority"), DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int SetPriority(int which, int who, int niceness);
}
