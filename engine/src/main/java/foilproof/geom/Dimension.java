package foilproof.geom;

import java.util.List;

/**
 * What a typed quantity measures, with the units that may be written for it. Values are kept in the engine's unit of
 * the dimension ({@link #engineUnit()}); every factor is a ratio of exact decimals, so that one conversion rounds
 * once or twice and no more. Sources of the factors: the inch is 25.4 mm by the 1959 agreement; foil weights are the
 * nominal thicknesses that the job file's contract states (0.5 oz = 17.4 um, 1 oz = 34.8 um).
 */
public enum Dimension {
    /** Millimetres. */
    LENGTH(
            "a length",
            "mm",
            List.of(
                    new Unit("mm", 1, 1),
                    new Unit("um", 1, 1000),
                    new Unit("\u00b5m", 1, 1000),
                    new Unit("\u03bcm", 1, 1000),
                    new Unit("cm", 10, 1),
                    new Unit("m", 1000, 1),
                    new Unit("in", 25.4, 1),
                    new Unit("inch", 25.4, 1),
                    new Unit("thou", 25.4, 1000))),
    /** Millimetres of copper: a length, or a foil weight in ounces a square foot. */
    FOIL(
            "a foil weight or thickness",
            "mm",
            List.of(
                    new Unit("oz", 34.8, 1000),
                    new Unit("um", 1, 1000),
                    new Unit("\u00b5m", 1, 1000),
                    new Unit("\u03bcm", 1, 1000),
                    new Unit("mm", 1, 1),
                    new Unit("thou", 25.4, 1000),
                    new Unit("in", 25.4, 1),
                    new Unit("inch", 25.4, 1))),
    /** Millimetres a minute. */
    FEED(
            "a feed",
            "mm/min",
            List.of(
                    new Unit("mm/min", 1, 1),
                    new Unit("mm/s", 60, 1),
                    new Unit("m/min", 1000, 1),
                    new Unit("in/min", 25.4, 1),
                    new Unit("inch/min", 25.4, 1),
                    new Unit("in/s", 1524, 1),
                    new Unit("thou/min", 25.4, 1000))),
    /** Turns a minute. */
    SPINDLE("a spindle speed", "rpm", List.of(new Unit("rpm", 1, 1))),
    /** Millimetres a second, squared. */
    ACCELERATION(
            "an acceleration",
            "mm/s2",
            List.of(
                    new Unit("mm/s2", 1, 1),
                    new Unit("mm/s^2", 1, 1),
                    new Unit("m/s2", 1000, 1),
                    new Unit("m/s^2", 1000, 1),
                    new Unit("in/s2", 25.4, 1),
                    new Unit("in/s^2", 25.4, 1))),
    /** Degrees. */
    ANGLE("an angle", "deg", List.of(new Unit("deg", 1, 1), new Unit("\u00b0", 1, 1))),
    /** Seconds. */
    TIME(
            "a time",
            "s",
            List.of(new Unit("s", 1, 1), new Unit("ms", 1, 1000), new Unit("min", 60, 1), new Unit("h", 3600, 1))),
    /** Amperes. */
    CURRENT("a current", "A", List.of(new Unit("A", 1, 1), new Unit("mA", 1, 1000))),
    /** Volts. */
    VOLTAGE("a voltage", "V", List.of(new Unit("V", 1, 1), new Unit("mV", 1, 1000), new Unit("kV", 1000, 1))),
    /** Ohms. */
    RESISTANCE("a resistance", "ohm", List.of(new Unit("ohm", 1, 1), new Unit("mohm", 1, 1000))),
    /** Kelvin of difference: a rise, not a reading of a thermometer. */
    TEMPERATURE_RISE("a temperature rise", "K", List.of(new Unit("K", 1, 1))),
    /** Square millimetres. */
    AREA("an area", "mm2", List.of(new Unit("mm2", 1, 1), new Unit("mm^2", 1, 1), new Unit("in2", 645.16, 1))),
    /** Newtons a square millimetre. */
    STRESS(
            "a stress or pressure",
            "N/mm2",
            List.of(new Unit("N/mm2", 1, 1), new Unit("N/mm^2", 1, 1), new Unit("MPa", 1, 1))),
    /** Watts a square millimetre. */
    POWER_DENSITY(
            "a power by area",
            "W/mm2",
            List.of(new Unit("W/cm2", 1, 100), new Unit("W/mm2", 1, 1), new Unit("W/cm^2", 1, 100))),
    /** Cubic millimetres. */
    VOLUME("a volume", "mm3", List.of(new Unit("mm3", 1, 1), new Unit("mm^3", 1, 1))),
    /** A share of one. */
    RATIO("a share", "1", List.of(new Unit("%", 1, 100), new Unit("x", 1, 1)));

    private final String called;
    private final String engineUnit;
    private final List<Unit> units;

    Dimension(String called, String engineUnit, List<Unit> units) {
        this.called = called;
        this.engineUnit = engineUnit;
        this.units = units;
    }

    /** With its article, as a message says it: "a length". */
    public String called() {
        return called;
    }

    /** The unit that values of this dimension are kept in. */
    public String engineUnit() {
        return engineUnit;
    }

    /** The units that may be written, the usual one first. */
    public List<String> unitNames() {
        return units.stream().map(Unit::name).toList();
    }

    List<Unit> units() {
        return units;
    }

    /**
     * One unit: a value of it is {@code value * multiply / divide} engine units.
     *
     * @param name as it is written, case matters
     * @param multiply exact decimal
     * @param divide power of ten
     */
    record Unit(String name, double multiply, double divide) {
        double toEngineUnit(double value) {
            return value * multiply / divide;
        }
    }
}
