namespace DrumPrint.Dsp.Parameters;

/// <summary>A setting that cannot be used; the message is fit for a user.</summary>
public sealed class SettingsException(Parameter? parameter, string message) : Exception(message)
{
    /// <summary>The parameter at fault, where one is.</summary>
    public Parameter? Parameter { get; } = parameter;
}
