namespace DrumPrint.Dsp.Parameters;

/// <summary>The unit of a number; its suffix ends the parameter's key.</summary>
public enum Unit
{
    /// <summary>A bare number whose name says all (ratio, q, channels).</summary>
    None,
    Decibels,
    DecibelsTruePeak,
    Hertz,
    Milliseconds,
    Seconds,
    Percent,
    Frames,
    Metres,
    DecibelsPerOctave,
    InchesPerSecond,
    Degrees,
}

/// <summary>How units are written in keys and on screen.</summary>
public static class UnitText
{
    /// <summary>The end of a parameter's key, such as <c>_db</c>; empty for a bare number.</summary>
    public static string Suffix(this Unit unit) => unit switch
    {
        Unit.Decibels => "_db",
        Unit.DecibelsTruePeak => "_dbtp",
        Unit.Hertz => "_hz",
        Unit.Milliseconds => "_ms",
        Unit.Seconds => "_s",
        Unit.Percent => "_pct",
        Unit.Frames => "_frames",
        Unit.Metres => "_m",
        Unit.DecibelsPerOctave => "_db_per_oct",
        Unit.InchesPerSecond => "_in_per_s",
        Unit.Degrees => "_deg",
        _ => "",
    };

    /// <summary>The unit as read on a page, such as <c>dB</c>; empty for a bare number.</summary>
    public static string Symbol(this Unit unit) => unit switch
    {
        Unit.Decibels => "dB",
        Unit.DecibelsTruePeak => "dBTP",
        Unit.Hertz => "Hz",
        Unit.Milliseconds => "ms",
        Unit.Seconds => "s",
        Unit.Percent => "%",
        Unit.Frames => "frames",
        Unit.Metres => "m",
        Unit.DecibelsPerOctave => "dB/oct",
        Unit.InchesPerSecond => "in/s",
        Unit.Degrees => "°",
        _ => "",
    };

    /// <summary>The unit in words, such as <c>milliseconds</c>; empty for a bare number.</summary>
    public static string Word(this Unit unit) => unit switch
    {
        Unit.Decibels => "decibels",
        Unit.DecibelsTruePeak => "decibels true peak",
        Unit.Hertz => "hertz",
        Unit.Milliseconds => "milliseconds",
        Unit.Seconds => "seconds",
        Unit.Percent => "per cent",
        Unit.Frames => "frames",
        Unit.Metres => "metres",
        Unit.DecibelsPerOctave => "decibels per octave",
        Unit.InchesPerSecond => "inches per second",
        Unit.Degrees => "degrees",
        _ => "",
    };
}
