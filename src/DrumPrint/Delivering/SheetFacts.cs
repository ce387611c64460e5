using DrumPrint.Chains;
using DrumPrint.Dsp.Metering;
using DrumPrint.Tickets;

namespace DrumPrint.Delivering;

/// <summary>All that a sheet is written from.</summary>
internal sealed record SheetFacts
{
    /// <summary>The manifest, but for the sheet's own files.</summary>
    public required DeliveryManifest Manifest { get; init; }

    public required Ticket Ticket { get; init; }

    /// <summary>What was measured of each delivered sound, read back, by file name.</summary>
    public required IReadOnlyDictionary<string, SoundReading> Sounds { get; init; }

    /// <summary>Waveforms of the delivered sounds, small, by file name.</summary>
    public required IReadOnlyDictionary<string, WaveOutline> Outlines { get; init; }

    /// <summary>The proof; empty when there is no rough to hold the prints against.</summary>
    public required IReadOnlyList<PanLawLine> Proof { get; init; }

    /// <summary>By how much dry twins were lowered alone, in dB, by number.</summary>
    public IReadOnlyDictionary<int, double> Lowered { get; init; } = new Dictionary<int, double>();

    /// <summary>How a mixer reaches the user; null when the user says nothing.</summary>
    public string? Contact { get; init; }

    /// <summary>How the user is to be credited; null when the user says nothing.</summary>
    public string? Credit { get; init; }

    public Chain Chain => Ticket.Chain;

    /// <summary>Bars as far as the files go; null without a tempo map.</summary>
    public TempoMap? Tempo => Chain.Song.Tempo is { IsMissing: false } map ? map.UpTo((double)Manifest.Frames / Manifest.RateHz) : null;
}
