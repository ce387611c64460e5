namespace DrumPrint.Listening;

/// <summary>The words of the trade for microphones, in the spellings and languages people use.</summary>
/// <remarks>Common practice, no source. All without accents, in small letters; words of two parts stand in one.</remarks>
internal static class NameWords
{
    public static IReadOnlyDictionary<string, Role> Roles { get; } = Table(
        (Role.Kick, "kick kik kck kd bd bassdrum basedrum bdrum grossecaisse gc bombo grossetrommel grosstrommel cassa grancassa bumbo basdrum bastrumma stortrumma storetromme bassotrumpu kicktrigger beater"),
        (Role.Snare, "snare snr sn sd sdrum snaredrum caisseclaire cc caisse kleinetrommel kltrommel caja redoblante tarola rullante caixa virvel virveltrumma lilletromme wires"),
        (Role.Hat, "hat hats hh hihat hihats highhat charley charleston charles charli chaston hihatbecken hatmic contratiempo chimbal"),
        (Role.RackTom, "tom toms tm rack racktom rk rt tomrack hightom hitom midtom lowtom tomhi tommid hochtom haengetom hangetom tomalto tommedio tomaereo tomaigu tommedium timbal"),
        (Role.FloorTom, "floor flr floortom ft floortm flt standtom stehtom tombasse tombase tompiso timbalbase timpano tomdepiso tomsuelo surdo gulvtom golvpuka"),
        (Role.Ride, "ride rd rid ridebecken"),
        (Role.Cymbal, "crash cr cym cymbal cymbals becken china splash platillo platillos piatto piatti cymbale cymbales prato pratos"),
        (Role.Overhead, "oh ohs over overs overhead overheads ovh ovhd ohd aereo aereos aerien aeriens panoramici panoramica cenital cenitales"),
        (Role.Room, "room rooms rm rms amb ambi ambience ambiance ambient ambiente raum raeume sala salle piece habitacion hall stairwell stairs corridor rum zimmer"),
        (Role.Kit, "front fok knee crotch kit mono monokit kitmono drumsmono shell center centre trash crush dirty frontofkit"),
        (Role.Percussion, "perc percs percussion perkussion percusion percussioni cabasa cabaza shaker shakers tamb tambourine tambourin claps clap handclaps conga congas bongo bongos cowbell maracas triangle guiro woodblock clave claves cajon pandeiro"),
        (Role.Other, "click clk metronome metro talkback tb talk guide scratch bass bajo gtr guitar gitarre guitare guitarra vox voc vocal vocals keys piano synth rough mix ref reference mixdown"));

    public static IReadOnlyDictionary<string, Standing> Standings { get; } = Table(
        (Standing.In, "in inside inner inn dedans dentro innen int interior"),
        (Standing.Out, "out outside outer reso resonant dehors fuera aussen ausen ext exterior port fuori"),
        (Standing.Sub, "sub subkick subk lf low lofreq woofer"),
        (Standing.Top, "top tp up upper oben dessus haut arriba batter sopra"),
        (Standing.Under, "under bottom bot btm bt down lower unten dessous bas abajo underside sotto below"),
        (Standing.Side, "side vent shell seite cote lado rim"),
        (Standing.Near, "near close nah nahe cerca proche pres mid"),
        (Standing.Far, "far fern weit lejos loin distant hall"));

    /// <summary>Letters that stand for a place behind a drum's short name: SDb, BDi.</summary>
    public static IReadOnlyDictionary<string, Standing> Letters { get; } = Table((Standing.Top, "t"), (Standing.Under, "b u"), (Standing.In, "i"), (Standing.Out, "o"), (Standing.Side, "s"));

    public static IReadOnlyDictionary<string, Side> Sides { get; } = Table(
        (Side.Left, "l left lt links gauche izq izquierda sinistra sx esq"),
        (Side.Right, "r right rt rechts droite der derecha destra dx dir"));

    private static Dictionary<string, T> Table<T>(params (T Meaning, string Words)[] rows) =>
        rows.SelectMany(row => row.Words.Split(' ').Select(word => (word, row.Meaning))).DistinctBy(r => r.word).ToDictionary(r => r.word, r => r.Meaning, StringComparer.Ordinal);
}
