namespace DrumPrint.Fuzz.Targets;

/// <summary>A reader of bytes that come from strangers, and what must hold whatever the bytes are.</summary>
/// <remarks>Three things must hold. Only the refusals that the program turns into a sentence come out. What is allocated on the way is bounded by
/// the length of the input: <see cref="BaseBytes"/> and <see cref="BytesPerByte"/> for each byte. What was accepted means the same when it is
/// written and read again. The time a reading takes is watched by whoever drives it.</remarks>
internal abstract class FuzzTarget : IDisposable
{
    /// <summary>Its name, which is the name of its folder of examples.</summary>
    public abstract string Name { get; }

    /// <summary>Longest input that is tried.</summary>
    public virtual int MostBytes => 1 << 16;

    /// <summary>What may be allocated for an input of no length.</summary>
    public virtual long BaseBytes => 4 << 20;

    /// <summary>What may be allocated for each byte of the input.</summary>
    public virtual long BytesPerByte => 4096;

    /// <summary>Whether the input is text, which is changed by words as well as by bytes.</summary>
    public virtual bool IsText => true;

    /// <summary>Reads an input.</summary>
    /// <exception cref="FuzzFaultException">It took more memory than it may, or did not come back as it went in.</exception>
    /// <exception cref="Exception">Any other one is a fault of the reader.</exception>
    public FuzzOutcome Run(byte[] input)
    {
        var before = GC.GetAllocatedBytesForCurrentThread();
        bool isAccepted;
        try
        {
            isAccepted = Read(input);
        }
        catch (Exception e) when (IsRefusal(e))
        {
            isAccepted = false;
        }

        var allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        var most = BaseBytes + (BytesPerByte * input.Length);
        return allocated <= most
            ? new FuzzOutcome(isAccepted, allocated)
            : throw new FuzzFaultException("memory", FormattableString.Invariant($"{allocated} bytes were allocated for an input of {input.Length}; {most} may be."));
    }

    public void Dispose()
    {
        Dispose(true);
        GC.SuppressFinalize(this);
    }

    /// <summary>Reads an input, and holds what was read against what it must be.</summary>
    /// <returns>Whether it was accepted, where a reader says so without an exception.</returns>
    protected abstract bool Read(byte[] input);

    /// <summary>Whether an exception is one that the program turns into a sentence.</summary>
    protected virtual bool IsRefusal(Exception e) => false;

    protected virtual void Dispose(bool disposing)
    {
    }

    /// <summary>Requires something of what was read.</summary>
    protected static void Require(bool holds, string what)
    {
        if (!holds)
        {
            throw new FuzzFaultException("contradiction", what);
        }
    }
}
