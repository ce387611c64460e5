using DrumPrint.Audio;
using DrumPrint.Chains;
using DrumPrint.Checking.Findings;
using DrumPrint.Checking.Subjects;
using DrumPrint.Checking.Takes;
using DrumPrint.Files;

namespace DrumPrint.Checking;

/// <summary>The part of a check that needs no more of the raw files than their headers and a few windows of each, so that a print can run it
/// beside its own work.</summary>
public static class QuickCheck
{
    /// <summary>Faults that nobody has signed off, each in one line.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="reading">What it may name.</param>
    /// <param name="cancel">Stops it.</param>
    public static IReadOnlyList<string> Faults(Chain chain, ReadPolicy reading, CancellationToken cancel = default)
    {
        ArgumentNullException.ThrowIfNull(chain);
        ArgumentNullException.ThrowIfNull(reading);
        using var subject = new CheckSubject(chain, [.. TakeList.OfChain(chain, reading).Where(t => t.IsRaw).Select(Headed)], chain.Song.RateHz, cancel);
        return [.. SignOff.Of(Found(subject), chain.Accepted)
            .Where(f => f.AcceptedWhy is null && f.Severity == Severity.Fault)
            .Select(f => $"{(f.Track.Length > 0 ? $"track '{f.Track}': " : "")}{f.Sentence} {f.Rule.Fix} (rule {f.Rule.Id} of the check)")];
    }

    // What one rule cannot read keeps no other from speaking.
    private static List<Finding> Found(CheckSubject subject)
    {
        var found = new List<Finding>();
        foreach (var check in Rulebook.Checks)
        {
            try
            {
                found.AddRange([.. check.FindQuickly(subject)]);
            }
            catch (AudioFileException)
            {
                continue;
            }
        }

        return found;
    }

    private static CheckedTake Headed(CheckedTake take)
    {
        if (take.IsMissing || take.IsBarred || take.Problem is not null)
        {
            return take;
        }

        try
        {
            using var reader = take.Open(AudioHashes.None);
            return take with { Info = reader.Info };
        }
        catch (AudioFileException)
        {
            return take;
        }
    }
}
