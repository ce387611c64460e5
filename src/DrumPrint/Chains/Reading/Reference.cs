using DrumPrint.Chains.Json;

namespace DrumPrint.Chains.Reading;

/// <summary>A name that must be declared somewhere in the chain.</summary>
internal sealed record Reference(ReferenceKind Kind, string Name, Position Position, string Place);

/// <summary>What a name may stand for.</summary>
internal enum ReferenceKind
{
    Source,
    Bus,
    Impulse,
}
