package foilproof.design;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * A bare-board netlist (IPC-D-356A): which places belong to one net, in design coordinates.
 *
 * @param points every test point, in the order of the file
 */
public record Netlist(List<TestPoint> points) {
    /** Copies the list. */
    public Netlist {
        points = List.copyOf(points);
    }

    /** What a test record is about. */
    public enum Kind {
        /** 317: through hole. */
        THROUGH_HOLE,
        /** 327: surface pad. */
        SURFACE_PAD,
        /** 367: non-plated tooling hole. */
        TOOLING_HOLE,
        /** 307: blind or buried via. */
        BLIND_VIA
    }

    /** From which side a place can be reached. */
    public enum Access {
        /** A00. */
        BOTH,
        /** A01: the primary (top) side. */
        TOP,
        /** A02 and above: the far side. */
        BOTTOM
    }

    /**
     * One place of a net.
     *
     * @param net name of the net, aliases resolved; {@code N/C} for a place of its own
     * @param kind what it is
     * @param reference reference of the part, null where blank
     * @param pin pin of the part, null where blank
     * @param midNet true where marked as not an end of its net
     * @param holeMm hole diameter, mm; null where there is none
     * @param plated whether the hole is plated; null where there is none
     * @param access side it can be reached from
     * @param xMm X, mm
     * @param yMm Y, mm
     * @param sizeXMm pad size along X before rotation, mm
     * @param sizeYMm pad size along Y, mm; equal to X for a round pad
     * @param round true where the pad is round
     * @param rotationDeg counter-clockwise rotation of the pad, degrees
     * @param line line of the file
     */
    public record TestPoint(
            String net,
            Kind kind,
            @Nullable String reference,
            @Nullable String pin,
            boolean midNet,
            @Nullable Double holeMm,
            @Nullable Boolean plated,
            Access access,
            double xMm,
            double yMm,
            double sizeXMm,
            double sizeYMm,
            boolean round,
            double rotationDeg,
            int line) {
        /** True where the place stands alone, in no net ({@code N/C}). */
        public boolean single() {
            return net.equals("N/C");
        }
    }

    /** Nets by name, in the order of their first place; places of no net are left out. */
    public Map<String, List<TestPoint>> nets() {
        Map<String, List<TestPoint>> byName = new LinkedHashMap<>();
        for (TestPoint point : points) {
            if (!point.single() && point.kind() != Kind.TOOLING_HOLE) {
                byName.computeIfAbsent(point.net(), k -> new ArrayList<>()).add(point);
            }
        }
        return byName;
    }
}
