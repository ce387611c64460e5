using Spectre.Console;

namespace DrumPrint.Cli.Output;

/// <summary>Shows how far a job is: a bar with the time left on a terminal, a line now and then in a log.</summary>
internal static class ProgressDisplay
{
    /// <summary>Runs a job; what it reports goes to standard error.</summary>
    public static T Run<T>(bool isShown, Func<Action<string, double>, T> job)
    {
        if (!isShown)
        {
            return job(static (_, _) => { });
        }

        return Terminal.IsErrorRedirected ? RunInLog(job) : RunOnTerminal(job);
    }

    private static T RunOnTerminal<T>(Func<Action<string, double>, T> job)
    {
        return Terminal.Progress().Progress()
            .AutoClear(true)
            .Columns(new TaskDescriptionColumn(), new ProgressBarColumn(), new PercentageColumn(), new RemainingTimeColumn())
            .Start(context =>
            {
                var task = context.AddTask("Starting", maxValue: 1);
                return job((activity, part) =>
                {
                    task.Description = Markup.Escape(Visible.Line(activity));
                    task.Value = part;
                });
            });
    }

    private static T RunInLog<T>(Func<Action<string, double>, T> job)
    {
        var gate = new Lock();
        var lastActivity = "";
        var lastTenth = 0;
        return job((activity, part) =>
        {
            var tenth = (int)(part * 10);
            lock (gate)
            {
                if (activity != lastActivity)
                {
                    lastActivity = activity;
                    lastTenth = 0;
                    Terminal.Say($"{activity} …");
                }

                if (tenth > lastTenth)
                {
                    lastTenth = tenth;
                    Terminal.Say($"{activity}: {tenth * 10} %");
                }
            }
        });
    }
}
