using DrumPrint.Printing.Runs;
using DrumPrint.Session;

namespace DrumPrint.Printing.Steps;

/// <summary>First step: learns the peak and the tail of every print, from the store where it knows them, else by rendering.</summary>
/// <param name="setup">The run.</param>
/// <param name="progress">Told how far it is.</param>
/// <param name="cancel">Stops it.</param>
internal sealed class Measure(RunSetup setup, IProgress<PrintProgress>? progress, CancellationToken cancel)
{
    private const int LowerTries = 5;

    // What is above 0 dBFS by less is the error of a logarithm.
    private const double SlackDb = 1e-9;

    /// <summary>Tries until no tail is cut short and nothing goes above 0 dBFS.</summary>
    /// <returns>The last try, with the figures of every print; it is for the caller to dispose of.</returns>
    /// <exception cref="OverloadException">A print would go above 0 dBFS and the chain does not say what to do then.</exception>
    public PrintAttempt Run()
    {
        var trimDb = setup.Run.TrimDb;
        var toCap = false;
        for (var tries = 0; ;)
        {
            var attempt = new PrintAttempt(setup, trimDb, toCap, progress, cancel);
            try
            {
                Figures(attempt, toCap ? "Printing again, with longer tails" : tries == 0 ? "Printing" : "Printing again, lowered");
                var isCut = !toCap && IsTailCut(attempt);
                var over = attempt.Figures.Values.Max(f => Overloads.Level(setup, f));
                if (!isCut && (over <= SlackDb || setup.Run.IsSettled || Overloads.MayStay(setup)))
                {
                    return attempt;
                }

                Save(attempt);
                if (isCut)
                {
                    toCap = true;
                }
                else if (!setup.Chain.Output.LowerTogether || tries++ == LowerTries)
                {
                    throw Overloads.Refusal(setup, attempt);
                }
                else
                {
                    trimDb = Overloads.Fitting(trimDb - over);
                }
            }
            catch
            {
                attempt.Dispose();
                throw;
            }

            attempt.Dispose();
        }
    }

    private void Figures(PrintAttempt attempt, string activity)
    {
        var unknown = new List<PrintTarget>();
        foreach (var target in setup.Needed)
        {
            if (setup.Store?.Find(target, attempt.TrimDb, attempt.ToCap) is { } memo)
            {
                attempt.Take(target, memo);
            }
            else
            {
                unknown.Add(target);
            }
        }

        attempt.Render(unknown, activity);
    }

    // A compressor may bring up a tail that its bus counts as over; then the plan ends too early.
    private bool IsTailCut(PrintAttempt attempt) =>
        setup.Planner.MeasuresTails && attempt.Figures.Values.Any(f => f.TailTo > setup.Planner.RawEnd && f.TailTo < setup.Planner.Cap && f.QuietFrom >= f.TailTo);

    private void Save(PrintAttempt attempt)
    {
        foreach (var figures in attempt.Figures.Values.Where(f => f.Memo is null))
        {
            setup.Store?.Save(figures, attempt.TrimDb, attempt.ToCap, null);
        }
    }
}
