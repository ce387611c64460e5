namespace DrumPrint.Dsp.Parameters;

/// <summary>True or false.</summary>
public sealed class ToggleParameter(string key, bool @default, string help) : Parameter(key, help)
{
    public bool Default { get; } = @default;

    public override object? Unset => Default;

    public override string Takes => "true or false";

    /// <summary>This parameter switched on or off, for <see cref="ProcessorDefinition.With"/> and its like.</summary>
    public (Parameter Parameter, object Value) To(bool isOn) => (this, isOn);

    public override string? Problem(object value) => value is bool ? null : WrongKind;
}
