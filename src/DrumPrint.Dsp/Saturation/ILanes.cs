using System.Runtime.Intrinsics;

namespace DrumPrint.Dsp.Saturation;

/// <summary>How many neighbouring channels a recursion takes through the lanes of a vector.</summary>
internal interface ILanes
{
    static abstract int Count { get; }

    static abstract Vector128<double> Load(ref double first);

    static abstract void Store(Vector128<double> lanes, ref double first);
}
