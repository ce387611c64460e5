using DrumPrint.Session;

namespace DrumPrint.Delivering;

/// <summary>What a print becomes in a delivery.</summary>
internal static class DeliveredKinds
{
    public static DeliveredKind Of(PrintKind kind) => kind switch
    {
        PrintKind.Playing => DeliveredKind.Playing,
        PrintKind.Optional => DeliveredKind.Optional,
        PrintKind.Rough => DeliveredKind.Rough,
        PrintKind.RoughWithBus => DeliveredKind.RoughWithBus,
        _ => DeliveredKind.Click,
    };
}
