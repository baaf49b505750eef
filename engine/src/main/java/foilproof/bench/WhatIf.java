package foilproof.bench;

import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;

/**
 * What-ifs asked on the command line, kept apart from the job's own values.
 *
 * @param zErrorMm Z error by tool name, mm, + = really deeper
 * @param bowMm the blank's middle low by this, its edge where it was, mm; 0 where not asked
 * @param inCollet tool name by tool number: this cutter is in the collet where the program calls for that number
 */
public record WhatIf(Map<String, Double> zErrorMm, double bowMm, Map<Integer, String> inCollet) {
    /** Nothing is asked. */
    public static final WhatIf NONE = new WhatIf(Map.of(), 0, Map.of());

    public WhatIf {
        zErrorMm = Collections.unmodifiableMap(new TreeMap<>(zErrorMm));
        inCollet = Collections.unmodifiableMap(new TreeMap<>(inCollet));
    }

    /** The Z error asked for a tool, mm, 0 where none. */
    public double zErrorMm(String tool) {
        return zErrorMm.getOrDefault(tool, 0.0);
    }
}
