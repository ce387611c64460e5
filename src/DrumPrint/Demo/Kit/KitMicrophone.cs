namespace DrumPrint.Demo.Kit;

/// <summary>One microphone and its preamp.</summary>
/// <param name="Number">First part of the raw file's name.</param>
/// <param name="Name">Second part.</param>
/// <param name="Place">Where it stands.</param>
/// <param name="Aim">What it points at.</param>
/// <param name="Pattern">Its pattern: 1 hears all round, 0.5 is a cardioid; the pressure part of pressure + gradient.</param>
/// <param name="GainDb">Preamp gain, set so that the loudest hit peaks where the session wants it.</param>
internal sealed record KitMicrophone(int Number, string Name, KitPoint Place, KitPoint Aim, double Pattern, double GainDb)
{
    /// <summary>The side of a drum it stands on.</summary>
    public Face Face { get; init; }

    /// <summary>Whether it is wired the other way round.</summary>
    public bool IsInverted { get; init; }

    /// <summary>Whether it is a heavy, low-tuned transducer that answers only around its own resonance.</summary>
    public bool IsLowTransducer { get; init; }

    /// <summary>Whether it stands beyond the open door.</summary>
    public bool IsInHall { get; init; }

    /// <summary>0 on the kit, or the number of the overdub it records.</summary>
    public int Overdub { get; init; }

    public string FileName => FormattableString.Invariant($"{Number:00}_{Name}.wav");

    /// <summary>Sensitivity to sound from a place, 1 on the axis; a real pattern's rear is never quite deaf.</summary>
    public double SensitivityTo(KitPoint source)
    {
        var cosine = CosineTo(source);
        return Math.Max(0.1, Math.Abs(Pattern + ((1 - Pattern) * cosine)));
    }

    /// <summary>Cosine of the angle between the axis and a place.</summary>
    public double CosineTo(KitPoint source) => KitPoint.Dot((Aim - Place).Unit, (source - Place).Unit);

    /// <summary>Sensitivity to sound from everywhere at once, as amplitude.</summary>
    public double DiffuseSensitivity => Math.Sqrt((Pattern * Pattern) + ((1 - Pattern) * (1 - Pattern) / 3));
}
