namespace DrumPrint.Dsp.Tests.Dynamics;

/// <summary>A compressor as a textbook writes it, point by point, at any multiple of the frame rate: what oversampling alone can
/// do. Giannoulis, Massberg and Reiss, JAES 60(6), 2012, eq. (4), (17) and (18), and the project's reading of its dials.</summary>
internal sealed class PlainDetector
{
    private readonly double _foot;
    private readonly double _knee;
    private readonly double _slope;
    private readonly bool _isFeedback;
    private readonly double _leak;
    private readonly double _rise;
    private readonly double _fall;
    private double _held;
    private double _reduction;
    private double _lastDb = -1000;

    public PlainDetector(double thresholdDb, double ratio, double kneeDb, double attackMs, double releaseMs, double rate, bool isFeedback = false)
    {
        (_foot, _knee, _slope, _isFeedback) = (thresholdDb - (kneeDb / 2), kneeDb, 1 - (1 / ratio), isFeedback);
        var late = isFeedback ? 1 : 0;
        var release = (releaseMs * rate / 1000) - late;
        _rise = PerPoint((attackMs * rate / 1000) - late);
        var alike = Solve(release, null);
        _fall = Math.Min(_rise, alike);
        _leak = _rise < alike ? Solve(release, _rise) : alike;
    }

    /// <summary>The level of a point, as it is followed.</summary>
    public static double LevelDb(double sample) => 20 * Math.Log10(Math.Max(Math.Abs(sample), 1e-30));

    /// <summary>The gain for the next point.</summary>
    public double Next(double sample)
    {
        Follow(LevelDb(sample));
        return Math.Pow(10, -_reduction / 20);
    }

    /// <summary>Takes in the level of the next point.</summary>
    public void Follow(double db)
    {
        var asked = !_isFeedback ? Curve(db) : _lastDb - _reduction > _foot ? Curve(_lastDb) : 0;
        _lastDb = db;
        _held = Math.Max(asked, (_leak * _held) + ((1 - _leak) * asked));
        var keep = _held > _reduction ? _rise : _fall;
        _reduction = (keep * _reduction) + ((1 - keep) * _held);
    }

    private static double PerPoint(double points) => points <= 0 ? 0 : Math.Exp(-1 / points);

    private static double Solve(double points, double? smoother)
    {
        if (points <= 0)
        {
            return 0;
        }

        var (low, high) = (0.0, points);
        for (var i = 0; i < 60; i++)
        {
            var middle = (low + high) / 2;
            var leak = PerPoint(middle);
            (low, high) = Left(leak, smoother ?? leak, points) > 1 / Math.E ? (low, middle) : (middle, high);
        }

        return PerPoint(high);
    }

    private static double Left(double leak, double smoother, double points)
    {
        var (leakLeft, smootherLeft) = (Math.Pow(leak, points), Math.Pow(smoother, points));
        var sum = Math.Abs(leak - smoother) < 1e-9 ? points * leakLeft : leak * (leakLeft - smootherLeft) / (leak - smoother);
        return smootherLeft + ((1 - smoother) * sum);
    }

    private double Curve(double level)
    {
        var above = Math.Max(0, level - _foot);
        var inKnee = Math.Min(above, _knee);
        return (_knee > 0 ? _slope * inKnee * inKnee / (2 * _knee) : 0) + (_slope * (above - inKnee));
    }
}
