namespace DrumPrint.Dsp.Parameters;

/// <summary>The name of an impulse. Always required.</summary>
public sealed class ImpulseParameter : Parameter
{
    public ImpulseParameter(string key, string help)
        : base(key, help) => IsRequired = true;

    public override string Takes => "the name of an impulse";

    /// <summary>This parameter with a name, for <see cref="ProcessorDefinition.With"/> and its like.</summary>
    public (Parameter Parameter, object Value) To(string name) => (this, name);

    public override string? Problem(object value) => value is string ? null : WrongKind;
}
