package sprag.supervisor.vocabulary;

/** The unit of a signal, an output or a parameter; the symbol is the ending of its name in files and traces. */
public enum Unit {
    /** Off or on: 0 or 1. Not a number means that nobody knows. */
    SWITCH(""),
    /** One of a short list of words. */
    CHOICE(""),
    /** A pure number: a share, a ratio, a count. */
    NUMBER(""),
    /** Volt, direct current unless said otherwise. */
    VOLT("v"),
    /** Ampere; positive leaves the pack. */
    AMPERE("a"),
    /** Newton-metre; positive drives forward. */
    NEWTON_METRE("nm"),
    /** Revolutions per minute; positive is forward. */
    RPM("rpm"),
    /** Degree Celsius. */
    CELSIUS("c"),
    /** Ohm. */
    OHM("ohm"),
    /** Thousand ohm. */
    KILO_OHM("kohm"),
    /** Microfarad. */
    MICROFARAD("uf"),
    /** Joule. */
    JOULE("j"),
    /** Watt. */
    WATT("w"),
    /** Ampere-hour. */
    AMPERE_HOUR("ah"),
    /** Millisecond. */
    MILLISECOND("ms"),
    /** Second. */
    SECOND("s"),
    /** Minute. */
    MINUTE("min"),
    /** Kilometre per hour. */
    KPH("kph"),
    /** Metre. */
    METRE("m"),
    /** Metre per second squared. */
    MPS2("mps2"),
    /** Kilogram. */
    KILOGRAM("kg");

    /** The ending that a name in this unit carries, without the underscore; empty for pure numbers. */
    public final String symbol;

    Unit(String symbol) {
        this.symbol = symbol;
    }
}
