namespace DrumPrint.Dsp.Metering;

/// <summary>A processor that runs others whose gain moves with the signal.</summary>
public interface IGainReducers
{
    /// <summary>Those others, in order.</summary>
    IReadOnlyList<InnerReducer> Reducers { get; }
}
