package foilproof.bench;

import java.util.OptionalDouble;

/**
 * What the person says of a net.
 *
 * @param name as the netlist names it
 * @param currentA amperes, empty where not known
 * @param voltageV volts against the reference net, empty where not known
 * @param flooded whether it will be flooded with solder
 */
public record Net(String name, OptionalDouble currentA, OptionalDouble voltageV, boolean flooded) {}
