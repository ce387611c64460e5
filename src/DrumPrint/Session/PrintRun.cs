using DrumPrint.Chains;

namespace DrumPrint.Session;

/// <summary>What one run makes: the whole song, some of its prints, an excerpt, or prints that an earlier run settled.</summary>
/// <param name="Selection">Every file the chain asks for, and which of them are written.</param>
internal abstract record PrintRun(PrintSelection Selection)
{
    /// <summary>First song frame that is written.</summary>
    public virtual long From => 0;

    /// <summary>One past the last song frame that is written; null for the end with its tail.</summary>
    public virtual long? To => null;

    /// <summary>Whether its files are prints of the song from start to end, which say how they were made and can be made again.</summary>
    public virtual bool IsOfWholeSong => true;

    /// <summary>Whether it makes every print, and a ticket that speaks for all of them.</summary>
    public virtual bool WritesTicket => false;

    /// <summary>Whether the ticket beside its prints ends with it, for it speaks for prints that are about to be replaced.</summary>
    public virtual bool EndsTicket => false;

    /// <summary>Whether it reads the raw tracks to their end; a part, or a length that is known, may stop before it.</summary>
    public bool ReadsToEnd => To is null;

    /// <summary>Whether length and trim are known from an earlier run: nothing is measured for them, and nothing refused.</summary>
    public virtual bool IsSettled => false;

    /// <summary>Common trim of all prints to begin with.</summary>
    public virtual double TrimDb => 0;

    /// <summary>Whether its processors begin in mid-song, each as long before the stretch as it remembers.</summary>
    public virtual bool BeginsLate => false;

    /// <summary>Common trim of the prints that were made last, where it is taken for granted; null where it is not, or not known.</summary>
    public virtual double? KnownTrimDb => null;

    /// <summary>Where raw files are that are not where the chain says, by the chain's path; null when all are.</summary>
    public virtual IReadOnlyDictionary<string, string>? Places => null;

    /// <summary>Where files of one track begin in it, by the names of both; null to go by their time stamps.</summary>
    public virtual IReadOnlyDictionary<(string Track, string File), long>? Starts => null;

    /// <summary>Name of the folder its files go to without a word, beside the chain.</summary>
    public virtual string FolderName => PrintFileName.Folder;

    /// <summary>What options ask for.</summary>
    /// <param name="chain">The chain.</param>
    /// <param name="options">How the run differs from what the chain says.</param>
    /// <exception cref="UsageException">A name fits no print, or the excerpt ends before it begins.</exception>
    public static PrintRun Of(Chain chain, PrintOptions options)
    {
        var selection = PrintSelection.Of(chain, options.Only);
        if (options.Settled is { } settled)
        {
            return new Again(selection, settled);
        }

        long Frame(double seconds) => (long)Math.Round(seconds * chain.Song.RateHz);

        var from = Frame(options.FromS ?? 0);
        var to = options.ToS is { } seconds ? (long?)Frame(seconds) : null;
        return to <= from ? throw new UsageException("--to lies before --from; nothing would be written.")
            : from > 0 || to is not null ? new Excerpt(selection, from, to) { FromBar = options.FromBar, ToBar = options.ToBar, IsQuick = !options.IsExact }
            : selection.IsWhole ? new WholeSong(selection)
            : new SomePrints(selection);
    }

    /// <summary>The name of one of its files.</summary>
    public virtual string NameOf(PrintTarget target, Song song) => PrintFileName.Of(target.Number, target.Name, song);

    /// <summary>What a print that is made again says of its maker; null for a print of this version.</summary>
    public virtual CarriedRecord? Carried(PrintTarget target) => null;

    /// <summary>Every print of the song.</summary>
    public sealed record WholeSong(PrintSelection Selection) : PrintRun(Selection)
    {
        public override bool WritesTicket => true;

        public override bool EndsTicket => true;
    }

    /// <summary>Some prints of the song, each as long as with all others.</summary>
    public sealed record SomePrints(PrintSelection Selection) : PrintRun(Selection)
    {
        public override bool EndsTicket => true;
    }

    /// <summary>A part of the song, to listen to: its files lie in a folder of their own and cannot be made again by themselves.</summary>
    public sealed record Excerpt(PrintSelection Selection, long Start, long? End) : PrintRun(Selection)
    {
        /// <summary>The bar at which it was said to start; null when it was said in seconds.</summary>
        public double? FromBar { get; init; }

        /// <summary>The bar at which it was said to end; null when it was said in seconds.</summary>
        public double? ToBar { get; init; }

        /// <summary>Whether it may begin in mid-song, and takes the trim of the last prints, instead of starting with the song.</summary>
        public bool IsQuick { get; init; }

        /// <summary>Common trim of the last prints; null when none is known.</summary>
        public double? LastTrimDb { get; init; }

        public override long From => Start;

        public override long? To => End;

        public override bool IsOfWholeSong => false;

        public override bool BeginsLate => IsQuick && From > 0;

        public override double? KnownTrimDb => IsQuick ? LastTrimDb : null;

        public override double TrimDb => KnownTrimDb ?? 0;

        public override string FolderName => "excerpt";

        // From where to where, so that two excerpts lie side by side.
        public override string NameOf(PrintTarget target, Song song) => PrintFileName.Of(target.Number, target.Name, song, (From, To), (FromBar, ToBar));
    }

    /// <summary>Prints made again, at the length and trim that were taken down with them.</summary>
    public sealed record Again(PrintSelection Selection, SettledRun Settled) : PrintRun(Selection)
    {
        public override long? To => Settled.Frames;

        public override bool IsSettled => true;

        public override double TrimDb => Settled.TrimDb;

        public override IReadOnlyDictionary<string, string> Places => Settled.Places;

        public override IReadOnlyDictionary<(string Track, string File), long> Starts => Settled.Starts;

        public override CarriedRecord? Carried(PrintTarget target) => Settled.Carried.GetValueOrDefault(target.Number);
    }
}
