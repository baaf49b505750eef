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
 * @param programUnits units that a program is assumed to begin in, by its file name
 * @param programZMm how much deeper than written a program is assumed to run, mm, by its file name
 * @param runZMm Z error of one tool run beside that of its cutter, mm, + = really deeper, by the run's index
 * @param moved the job moved on its blank, said of the first side
 */
public record WhatIf(
        Map<String, Double> zErrorMm,
        double bowMm,
        Map<Integer, String> inCollet,
        Map<String, Machine.Units> programUnits,
        Map<String, Double> programZMm,
        Map<Integer, Double> runZMm,
        JobMove moved) {
    /** Nothing is asked. */
    public static final WhatIf NONE = new WhatIf(Map.of(), 0, Map.of());

    public WhatIf {
        zErrorMm = Collections.unmodifiableMap(new TreeMap<>(zErrorMm));
        inCollet = Collections.unmodifiableMap(new TreeMap<>(inCollet));
        programUnits = Collections.unmodifiableMap(new TreeMap<>(programUnits));
        programZMm = Collections.unmodifiableMap(new TreeMap<>(programZMm));
        runZMm = Collections.unmodifiableMap(new TreeMap<>(runZMm));
    }

    /** The job lies where it says. */
    public WhatIf(
            Map<String, Double> zErrorMm,
            double bowMm,
            Map<Integer, String> inCollet,
            Map<String, Machine.Units> programUnits,
            Map<String, Double> programZMm,
            Map<Integer, Double> runZMm) {
        this(zErrorMm, bowMm, inCollet, programUnits, programZMm, runZMm, JobMove.NONE);
    }

    /** Nothing is asked of single tool runs. */
    public WhatIf(
            Map<String, Double> zErrorMm,
            double bowMm,
            Map<Integer, String> inCollet,
            Map<String, Machine.Units> programUnits,
            Map<String, Double> programZMm) {
        this(zErrorMm, bowMm, inCollet, programUnits, programZMm, Map.of());
    }

    /** Nothing is assumed of programs. */
    public WhatIf(Map<String, Double> zErrorMm, double bowMm, Map<Integer, String> inCollet) {
        this(zErrorMm, bowMm, inCollet, Map.of(), Map.of());
    }

    /** The same with a program assumed to begin in these units. */
    public WhatIf withProgramUnits(String file, Machine.Units units) {
        Map<String, Machine.Units> more = new TreeMap<>(programUnits);
        more.put(file, units);
        return new WhatIf(zErrorMm, bowMm, inCollet, more, programZMm, runZMm, moved);
    }

    /** The same with a program assumed to run deeper than written by this, mm. */
    public WhatIf withProgramZMm(String file, double deeperMm) {
        Map<String, Double> more = new TreeMap<>(programZMm);
        more.put(file, deeperMm);
        return new WhatIf(zErrorMm, bowMm, inCollet, programUnits, more, runZMm, moved);
    }

    /** The same with Z errors of single tool runs, mm, by the run's index. */
    public WhatIf withRunZMm(Map<Integer, Double> deeperMm) {
        return new WhatIf(zErrorMm, bowMm, inCollet, programUnits, programZMm, deeperMm, moved);
    }

    /** The same with the job moved on its blank. */
    public WhatIf withMoved(JobMove move) {
        return new WhatIf(zErrorMm, bowMm, inCollet, programUnits, programZMm, runZMm, move);
    }

    /** The Z error asked for a tool, mm, 0 where none. */
    public double zErrorMm(String tool) {
        return zErrorMm.getOrDefault(tool, 0.0);
    }
}
