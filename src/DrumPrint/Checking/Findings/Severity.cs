namespace DrumPrint.Checking.Findings;

/// <summary>How much a finding matters.</summary>
public enum Severity
{
    /// <summary>Worth knowing.</summary>
    Information,

    /// <summary>Worth a look before anything is handed over.</summary>
    Warning,

    /// <summary>Keeps a delivery back until it is mended or signed off.</summary>
    Fault,
}
