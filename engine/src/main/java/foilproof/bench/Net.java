package foilproof.bench;

import java.util.OptionalDouble;

/**
 * What the person says of a net.
 *
 * @param name as the netlist names it
 * @param currentA amperes, empty where not known
 * @param voltageV volts against the reference net, empty where not known
 * @param flooded whether it will be flooded with solder
 * @param highImpedance whether leakage over damp or dusty gaps would disturb it
 */
public record Net(
        String name, OptionalDouble currentA, OptionalDouble voltageV, boolean flooded, boolean highImpedance) {
    /** A net that leakage does not disturb. */
    public Net(String name, OptionalDouble currentA, OptionalDouble voltageV, boolean flooded) {
        this(name, currentA, voltageV, flooded, false);
    }
}
