using System.Globalization;
using DrumPrint.Aligning;
using DrumPrint.Bench.Messages;
using DrumPrint.Chains;
using DrumPrint.Checking;
using DrumPrint.Checking.Findings;
using DrumPrint.Files;
using DrumPrint.Printing;
using DrumPrint.Session;

namespace DrumPrint.Bench.Serving;

/// <summary>What check and align say of a chain.</summary>
/// <param name="check">What check found.</param>
/// <param name="pairs">What align found; it speaks of the raw files, so it holds when the chain is changed.</param>
internal sealed class TakeLook(CheckReport check, AlignmentReport pairs)
{
    /// <summary>Looks. One thread is left to what plays.</summary>
    public static TakeLook Take(Chain chain, ReadPolicy reading, IProgress<PrintProgress> progress, CancellationToken cancel)
    {
        var check = Checker.Check(chain.Path, new CheckOptions { Reading = reading, Threads = 1 }, progress, cancel);
        return new TakeLook(check, Aligner.Look(chain, [], reading, (activity, part) => progress.Report(new PrintProgress(activity, part)), cancel));
    }

    /// <summary>What lines a track up in a chain.</summary>
    /// <exception cref="UsageException">Nothing is known of it.</exception>
    public AlignmentMove Move(Chain chain, string track) => AlignmentMove.Of(pairs, chain, track, null);

    /// <summary>What the page shows of it.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="text">Its text.</param>
    public FindingsMessage Message(Chain chain, byte[] text)
    {
        var close = pairs.Rows.Where(r => r.Kind == MicrophoneKind.SameDrum).SelectMany(r => new[] { r.ReferenceTrack, r.Track }).Distinct(StringComparer.Ordinal);
        var moves = close.Where(t => chain.Tracks.Any(c => c.Name == t)).Select(t => Move(chain, t)).Where(m => !m.WriteInto(text, chain).AsSpan().SequenceEqual(text));
        return new FindingsMessage([.. check.Findings.Select(State)], [.. moves.Select(m => new MoveState(m.Track, Words(m)))], check.Notes);
    }

    private FindingState State(Finding finding)
    {
        var weight = finding.AcceptedWhy is null ? finding.Severity switch { Severity.Fault => "fault", Severity.Warning => "warning", _ => "worth knowing" } : "signed off";
        double? at = finding.PlacesS.Count > 0 ? finding.PlacesS[0] : null;
        return new FindingState(finding.Rule.Id, weight, finding.Track, finding.Sentence, finding.AcceptedWhy is { } why ? $"Signed off: {why}" : finding.Rule.Fix, at, at is { } there ? check.Place(there) : null);
    }

    private static string Words(AlignmentMove move)
    {
        List<string> parts = [];
        if (move.DelayMs is { } delay)
        {
            parts.Add(string.Create(CultureInfo.InvariantCulture, $"waits {delay:0.00} ms"));
        }

        if (move.IsInverted is { } inverted)
        {
            parts.Add(inverted ? "polarity inverted" : "polarity as recorded");
        }

        return $"{move.Track}: {string.Join(", ", parts)}";
    }
}
