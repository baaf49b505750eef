package foilproof.bench;

import foilproof.source.SourceFile;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A whole job as it lies on the bench: immutable, every quantity in engine units, every file read and hashed.
 *
 * @param name the job's name for people
 * @param file the job file's (or bare program's) name, relative to the job's folder
 * @param blank the blank
 * @param spoilBoard the spoil board
 * @param machine machine and controller
 * @param spread what the person believes of their set-up
 * @param tools in the order of the file; names and numbers are unique
 * @param sides in the order milled, at least one
 * @param keepOuts boxes that no cutter may touch
 * @param design what was intended, or null where no design is named
 * @param nets what is said of nets
 * @param joins joints made by hand
 * @param limits the limits of all checks
 * @param whatIf what-ifs of the command line
 * @param assumed every default that was used because nothing was said, as a person reads it
 * @param inputs every file that was read, in order of reading, the job file first
 */
public record Job(
        String name,
        String file,
        Blank blank,
        SpoilBoard spoilBoard,
        Machine machine,
        Spread spread,
        List<Tool> tools,
        List<Side> sides,
        List<KeepOut> keepOuts,
        @Nullable DesignFiles design,
        List<Net> nets,
        List<Join> joins,
        Limits limits,
        WhatIf whatIf,
        List<String> assumed,
        List<SourceFile> inputs) {
    public Job {
        tools = List.copyOf(tools);
        sides = List.copyOf(sides);
        keepOuts = List.copyOf(keepOuts);
        nets = List.copyOf(nets);
        joins = List.copyOf(joins);
        assumed = List.copyOf(assumed);
        inputs = List.copyOf(inputs);
    }

    /** The tool of this name, or null. */
    public @Nullable Tool toolNamed(String toolName) {
        for (Tool tool : tools) {
            if (tool.name().equals(toolName)) {
                return tool;
            }
        }
        return null;
    }

    /** The tool that this T word calls, or null; what-ifs of the collet are not applied. */
    public @Nullable Tool toolNumbered(int number) {
        for (Tool tool : tools) {
            if (tool.number().isPresent() && tool.number().getAsInt() == number) {
                return tool;
            }
        }
        return null;
    }

    /** The tool that is really in the collet where a program calls this T word, what-ifs applied, or null. */
    public @Nullable Tool toolInCollet(int number) {
        String swapped = whatIf.inCollet().get(number);
        return swapped != null ? toolNamed(swapped) : toolNumbered(number);
    }

    /** The same job on another blank. */
    public Job withBlank(Blank newBlank) {
        return new Job(
                name,
                file,
                newBlank,
                spoilBoard,
                machine,
                spread,
                tools,
                sides,
                keepOuts,
                design,
                nets,
                joins,
                limits,
                whatIf,
                assumed,
                inputs);
    }

    /** The same job with other sides. */
    public Job withSides(List<Side> newSides) {
        return new Job(
                name,
                file,
                blank,
                spoilBoard,
                machine,
                spread,
                tools,
                newSides,
                keepOuts,
                design,
                nets,
                joins,
                limits,
                whatIf,
                assumed,
                inputs);
    }

    /** The same job with other tools. */
    public Job withTools(List<Tool> newTools) {
        return new Job(
                name,
                file,
                blank,
                spoilBoard,
                machine,
                spread,
                newTools,
                sides,
                keepOuts,
                design,
                nets,
                joins,
                limits,
                whatIf,
                assumed,
                inputs);
    }

    /** The same job on another machine. */
    public Job withMachine(Machine newMachine) {
        return new Job(
                name,
                file,
                blank,
                spoilBoard,
                newMachine,
                spread,
                tools,
                sides,
                keepOuts,
                design,
                nets,
                joins,
                limits,
                whatIf,
                assumed,
                inputs);
    }

    /** The same job with other what-ifs. */
    public Job withWhatIf(WhatIf newWhatIf) {
        return new Job(
                name,
                file,
                blank,
                spoilBoard,
                machine,
                spread,
                tools,
                sides,
                keepOuts,
                design,
                nets,
                joins,
                limits,
                newWhatIf,
                assumed,
                inputs);
    }

    /** The same job with one more line of what was assumed. */
    public Job assuming(String line) {
        List<String> more = new ArrayList<>(assumed);
        more.add(line);
        return new Job(
                name,
                file,
                blank,
                spoilBoard,
                machine,
                spread,
                tools,
                sides,
                keepOuts,
                design,
                nets,
                joins,
                limits,
                whatIf,
                more,
                inputs);
    }
}
