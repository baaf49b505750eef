package foilproof.design;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Holes and slots that a drill file asks for, in design coordinates.
 *
 * @param tools the tool table, in the order of the file
 * @param holes in the order of the file
 * @param slots in the order of the file
 * @param cutShort true where the file has no end (M30): holes may be missing
 */
public record DrillFile(List<Tool> tools, List<Hole> holes, List<Slot> slots, boolean cutShort) {
    /** Copies the lists. */
    public DrillFile {
        tools = List.copyOf(tools);
        holes = List.copyOf(holes);
        slots = List.copyOf(slots);
    }

    /**
     * A tool of the table.
     *
     * @param number the T number
     * @param diameterMm finished diameter, mm
     * @param plated whether its holes are plated; null where the file does not say
     * @param function aperture function the file gives it, e.g. ViaDrill; null where the file does not say
     * @param line line of the file
     */
    public record Tool(
            int number,
            double diameterMm,
            @Nullable Boolean plated,
            @Nullable String function,
            int line) {}

    /**
     * A round hole.
     *
     * @param xMm centre X, mm
     * @param yMm centre Y, mm
     * @param tool the tool that makes it
     * @param line line of the file
     */
    public record Hole(double xMm, double yMm, Tool tool, int line) {
        /** Finished diameter, mm. */
        public double diameterMm() {
            return tool.diameterMm();
        }
    }

    /**
     * A slot: the tool's disc swept along a path.
     *
     * @param path the path of the tool's centre
     * @param tool the tool that makes it
     * @param line line of the file
     */
    public record Slot(List<PathEdge> path, Tool tool, int line) {
        /** Copies the path. */
        public Slot {
            path = List.copyOf(path);
        }
    }
}
