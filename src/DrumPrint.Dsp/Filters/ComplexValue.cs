namespace DrumPrint.Dsp.Filters;

/// <summary>A complex number with the few operations that finding roots needs, the same bits on every machine.</summary>
internal readonly record struct ComplexValue(double Re, double Im)
{
    public double Power => (Re * Re) + (Im * Im);

    public static implicit operator ComplexValue(double real) => new(real, 0);

    public static ComplexValue operator +(ComplexValue a, ComplexValue b) => new(a.Re + b.Re, a.Im + b.Im);

    public static ComplexValue operator -(ComplexValue a, ComplexValue b) => new(a.Re - b.Re, a.Im - b.Im);

    public static ComplexValue operator -(ComplexValue a) => new(-a.Re, -a.Im);

    public static ComplexValue operator *(ComplexValue a, ComplexValue b) =>
        new((a.Re * b.Re) - (a.Im * b.Im), (a.Re * b.Im) + (a.Im * b.Re));

    public static ComplexValue operator /(ComplexValue a, ComplexValue b)
    {
        var power = b.Power;
        return new(((a.Re * b.Re) + (a.Im * b.Im)) / power, ((a.Im * b.Re) - (a.Re * b.Im)) / power);
    }

    /// <summary>The square root whose real part is not negative.</summary>
    public ComplexValue SquareRoot()
    {
        var magnitude = Math.Sqrt(Power);
        var half = Math.Sqrt((magnitude + Math.Abs(Re)) / 2);
        if (half == 0)
        {
            return 0;
        }

        return Re >= 0
            ? new(half, Im / (2 * half))
            : new(Math.Abs(Im) / (2 * half), Math.CopySign(half, Im));
    }
}
