using DrumPrint.Audio;
using DrumPrint.Files;

namespace DrumPrint.Session;

/// <summary>How one run of printing differs from what the chain says.</summary>
public sealed record PrintOptions
{
    /// <summary>Folder to write to; null for <c>prints</c> beside the chain (<c>excerpt</c> when a stretch is chosen).</summary>
    public string? OutFolder { get; init; }

    /// <summary>Prints to write, each by number, name or file name; empty for all.</summary>
    public IReadOnlyList<string> Only { get; init; } = [];

    /// <summary>Start of the stretch to write, in seconds; null for the start.</summary>
    public double? FromS { get; init; }

    /// <summary>End of the stretch to write, in seconds; null for the end with its tail.</summary>
    public double? ToS { get; init; }

    /// <summary>The bar at which the stretch was said to start, for the names of its files; null when it was said in seconds.</summary>
    public double? FromBar { get; init; }

    /// <summary>The bar at which the stretch was said to end, for the names of its files; null when it was said in seconds.</summary>
    public double? ToBar { get; init; }

    /// <summary>Whether a stretch is rendered from the start of the song, so that it is a slice of the print to the last bit. Else each processor
    /// begins as long before the stretch as it remembers: at most 20 s, from which it differs by less than −100 dBFS, and is there at once.</summary>
    public bool IsExact { get; init; }

    /// <summary>Number of threads; null for one for each processor core.</summary>
    public int? Threads { get; init; }

    /// <summary>Word length; null for the chain's.</summary>
    public SampleEncoding? Encoding { get; init; }

    /// <summary>Frames in a block; a stretch that is not exact has blocks of its own. Never changes the sound.</summary>
    public int BlockFrames { get; init; } = 4096;

    /// <summary>Whether to tell where the time went.</summary>
    public bool Profiles { get; init; }

    /// <summary>Where to keep what later runs need not render again, and to take it from; null to go without.</summary>
    public StoreOptions? Store { get; init; }

    /// <summary>Writes to the disk.</summary>
    internal FileSteps Steps { get; init; } = FileSteps.Plain;

    /// <summary>Which files the chain may name.</summary>
    public ReadPolicy Reading { get; init; } = ReadPolicy.Default;

    /// <summary>What an earlier run settled, for making its prints again; null for a fresh run.</summary>
    internal SettledRun? Settled { get; init; }
}
