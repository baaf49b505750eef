package foilproof.findings;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Layers findings: what follows from another finding is folded under it, so that a units slip is one finding with its
 * consequences and not forty-eight missing holes (design, idea 6). Only consequences that cannot stand on their own
 * while the cause stands are folded; two independent faults stay two findings.
 */
public final class Causes {
    /** Geometry that means nothing while a program's units or reach are in doubt. */
    private static final Set<String> GEOMETRY = Set.of(
            Kinds.WRONG_Z_REFERENCE,
            Kinds.FOIL_LEFT,
            Kinds.THIN_MARGIN,
            Kinds.TOO_DEEP,
            Kinds.SEVERED_COPPER,
            Kinds.THIN_TRACE,
            Kinds.HAIR,
            Kinds.SLIVER,
            Kinds.STRAY_COPPER,
            Kinds.NARROW_GAP,
            Kinds.HOLE_MISSING,
            Kinds.HOLE_SIZE,
            Kinds.RING_THIN,
            Kinds.NOT_THROUGH,
            Kinds.DUTY_BROKEN,
            Kinds.SPOIL_BOARD_CONTACT,
            Kinds.SPOIL_BOARD_DEEP,
            Kinds.TABLE_CONTACT,
            Kinds.PART_FREE,
            Kinds.TABS,
            Kinds.DEEP_PASS,
            Kinds.WRONG_BIT_DRILLING,
            Kinds.RAPID_IN_MATERIAL,
            Kinds.BEYOND_TRAVEL,
            Kinds.KEEP_OUT_CONTACT,
            Kinds.DEEP_PLUNGE,
            Kinds.PLUNGE_TOO_FAST,
            Kinds.CHIP_LOAD,
            Kinds.SIDE_LOAD,
            Kinds.SIDES_SHIFTED,
            Kinds.SHORT,
            Kinds.OPEN,
            Kinds.NARROW_NET,
            Kinds.SPACING,
            Kinds.MIRRORED,
            Kinds.FEED_TOO_HIGH,
            Kinds.TOOL_WEAR,
            Kinds.ORDER,
            Kinds.DRILL_WANDER,
            Kinds.SHANK_CONTACT,
            Kinds.CYCLE_SUSPECT,
            Kinds.BURN,
            Kinds.BURR,
            Kinds.TIME,
            Kinds.HOT_TRACE,
            Kinds.OUTLINE_OFF,
            Kinds.EDGE_COPPER,
            Kinds.OFF_BLANK,
            Kinds.OTHER_REVISION,
            Kinds.BORE_TIGHT,
            Kinds.SLOT_WEB,
            Kinds.HOLD_WEAK,
            Kinds.SPOIL_BOARD_CUT,
            Kinds.FLOOR_LEFT,
            Kinds.FOIL_WEIGHT,
            Kinds.LAND_SMALL,
            Kinds.LETTERING,
            Kinds.LAND_HEAT,
            Kinds.WASTED_MOVES,
            Kinds.BACKLASH,
            Kinds.ANGLE_DOUBT,
            Kinds.RUNOUT,
            Kinds.BLANK_THICKNESS,
            Kinds.CORNER_LEFT);

    /** What a depth that is wrong as a whole brings with it. */
    private static final Set<String> OF_DEPTH = Set.of(
            Kinds.FOIL_LEFT,
            Kinds.THIN_MARGIN,
            Kinds.TOO_DEEP,
            Kinds.NOT_THROUGH,
            Kinds.HAIR,
            Kinds.SLIVER,
            Kinds.NARROW_GAP,
            Kinds.SHORT,
            Kinds.DEEP_PASS,
            Kinds.STRAY_COPPER,
            Kinds.SPOIL_BOARD_DEEP);

    /** A cycle left in force makes a hole that the drill file does not ask for. */
    private static final Set<String> OF_CYCLE = Set.of(Kinds.HOLE_MISSING);

    /** A cutter in the wrong job leaves no depth that is right: its empty window says nothing of its own. */
    private static final Set<String> OF_DUTY = Set.of(Kinds.THIN_MARGIN);

    /**
     * Beside the place where the foil is not cut at all, the groove is too narrow; what it should part is joined; and a
     * blank that is not flat enough leaves no depth that works.
     */
    private static final Set<String> OF_FOIL_LEFT = Set.of(Kinds.NARROW_GAP, Kinds.SHORT, Kinds.THIN_MARGIN);

    /** Work in a part that is already free comes after the outline cut. */
    private static final Set<String> OF_FREE_PART = Set.of(Kinds.ORDER);

    /** Where copper and design do not lie on each other, nothing that compares the two means anything. */
    private static final Set<String> OF_PLACE = Set.of(
            Kinds.HOLE_MISSING,
            Kinds.HOLE_SIZE,
            Kinds.RING_THIN,
            Kinds.SEVERED_COPPER,
            Kinds.SHORT,
            Kinds.OPEN,
            Kinds.NARROW_NET,
            Kinds.HOT_TRACE,
            Kinds.SPACING,
            Kinds.LAND_SMALL,
            Kinds.SIDES_SHIFTED,
            Kinds.THIN_MARGIN,
            Kinds.TOO_DEEP,
            Kinds.THIN_TRACE,
            Kinds.NARROW_GAP);

    /** Copper that lies a little off the design loses a strip on one side. */
    private static final Set<String> OF_SHIFT = Set.of(Kinds.SEVERED_COPPER);

    /** Holes of the wrong bit are wide at the top: what they take there, and leave below, follows. */
    private static final Set<String> OF_BIT = Set.of(
            Kinds.OPEN,
            Kinds.RING_THIN,
            Kinds.NARROW_GAP,
            Kinds.TOO_DEEP,
            Kinds.NOT_THROUGH,
            Kinds.HOLE_SIZE,
            Kinds.SEVERED_COPPER,
            Kinds.THIN_TRACE,
            Kinds.THIN_MARGIN,
            Kinds.LAND_SMALL);

    /** What a program that ends early leaves undone. */
    private static final Set<String> OF_END = Set.of(
            Kinds.NOT_THROUGH,
            Kinds.FLOOR_LEFT,
            Kinds.TABS,
            Kinds.SHORT,
            Kinds.OUTLINE_OFF,
            Kinds.THIN_MARGIN,
            Kinds.HOLE_MISSING,
            Kinds.SEVERED_COPPER,
            Kinds.LAND_SMALL);

    /** Causes that lead though they are only to be watched. */
    private static final Set<String> MILD = Set.of(Kinds.SIDES_SHIFTED, Kinds.PART_FREE);

    /** What puts all the rest in doubt stands before its equals: what it did to single places may follow from it. */
    private static final Set<String> FIRST = Set.of(
            Kinds.UNITS_UNSET,
            Kinds.DECIMAL_SLIP,
            Kinds.DISTANCE_MODE,
            Kinds.WRONG_Z_REFERENCE,
            Kinds.MIRRORED,
            Kinds.OTHER_REVISION,
            Kinds.SIDES_SHIFTED);

    /** How far beside a box a place still belongs to it, mm. */
    private static final double BESIDE_MM = 0.2;

    private Causes() {}

    /** Folds consequences and sorts, worst first; the order of equals is that of the checks. */
    public static List<Finding> layer(List<Finding> findings) {
        List<Finding> open = new ArrayList<>(findings);
        List<Finding> done = new ArrayList<>();
        for (String cause : List.of(
                Kinds.UNITS_UNSET,
                Kinds.DECIMAL_SLIP,
                Kinds.DISTANCE_MODE,
                Kinds.WRONG_Z_REFERENCE,
                Kinds.MIRRORED,
                Kinds.OTHER_REVISION,
                Kinds.SIDES_SHIFTED,
                Kinds.PROGRAM_ERROR,
                Kinds.PROGRAM_TRUNCATED,
                Kinds.CYCLE_SUSPECT,
                Kinds.WRONG_BIT_DRILLING,
                Kinds.DUTY_BROKEN,
                Kinds.OPEN,
                Kinds.PART_FREE,
                Kinds.FOIL_LEFT)) {
            Set<String> follow =
                    switch (cause) {
                        case Kinds.WRONG_Z_REFERENCE -> OF_DEPTH;
                        case Kinds.MIRRORED, Kinds.OTHER_REVISION -> OF_PLACE;
                        case Kinds.SIDES_SHIFTED, Kinds.OPEN -> OF_SHIFT;
                        case Kinds.PROGRAM_ERROR, Kinds.PROGRAM_TRUNCATED -> OF_END;
                        case Kinds.WRONG_BIT_DRILLING -> OF_BIT;
                        case Kinds.CYCLE_SUSPECT -> OF_CYCLE;
                        case Kinds.DUTY_BROKEN -> OF_DUTY;
                        case Kinds.PART_FREE -> OF_FREE_PART;
                        case Kinds.FOIL_LEFT -> OF_FOIL_LEFT;
                        default -> GEOMETRY;
                    };
            for (Finding root : List.copyOf(open)) {
                boolean leads = root.severity().atLeast(Severity.FIX)
                        || MILD.contains(cause) && root.severity() == Severity.WATCH;
                if (!root.kind().equals(cause) || !leads || !open.contains(root)) {
                    continue;
                }
                List<Finding> folded = new ArrayList<>();
                for (Finding other : open) {
                    if (other != root && follow.contains(other.kind()) && follows(root, other, follow)) {
                        folded.add(other);
                    }
                }
                open.removeAll(folded);
                open.set(open.indexOf(root), remedied(root, folded).withConsequences(sorted(folded)));
            }
        }
        done.addAll(open);
        return sorted(done);
    }

    /** Worst first; equals by certainty, causes of the whole first, side, moment; then in the order given. */
    public static List<Finding> sorted(List<Finding> findings) {
        List<Finding> copy = new ArrayList<>(findings);
        copy.sort(Comparator.comparing(Finding::severity)
                .thenComparing(Finding::certainty)
                .thenComparing(f -> !FIRST.contains(f.kind()))
                .thenComparing(f -> orLast(f.side() == null ? null : (double) f.side()))
                .thenComparing(f -> orLast(f.timeS())));
        return List.copyOf(copy);
    }

    /** Where no depth setting works, the remedy of foil that is left is not to cut deeper. */
    private static Finding remedied(Finding root, List<Finding> folded) {
        for (Finding other : folded) {
            if (root.kind().equals(Kinds.FOIL_LEFT) && other.kind().equals(Kinds.THIN_MARGIN)) {
                return root.doing(other.doThis());
            }
        }
        return root;
    }

    private static boolean follows(Finding root, Finding other, Set<String> follow) {
        if (follow == OF_FREE_PART) {
            return root.timeS() != null
                    && other.timeS() != null
                    && sameSide(root, other)
                    && (other.timeS() >= root.timeS() - 1e-9 || Objects.equals(root.line(), other.line()))
                    && holds(root, other);
        }
        if (follow == OF_FOIL_LEFT && !other.kind().equals(Kinds.NARROW_GAP)) {
            boolean margin = other.kind().equals(Kinds.THIN_MARGIN);
            boolean own = margin
                    ? other.doThis().contains(ThinMargins.ON_FLAT)
                    : other.measured() != null && other.measured().name().equals(Bridges.SHALLOW);
            return own && sameSide(root, other) && sameOrigin(root, other);
        }
        if (root.kind().equals(Kinds.OPEN)) {
            return sameSide(root, other) && holds(other, root);
        }
        if (other.kind().equals(Kinds.SHORT) && leavesCopper(root)) {
            // grooves that are not where they belong, or were never reached, part no nets: no line of theirs is near
            return sameSide(root, other);
        }
        if (follow == OF_END && other.kind().equals(Kinds.HOLE_MISSING) && other.program() == null) {
            return sameSide(root, other);
        }
        if (follow == OF_SHIFT) {
            return sameSide(root, other) && !other.severity().atLeast(Severity.FIX);
        }
        if (other.kind().equals(Kinds.NARROW_GAP) && follow == OF_PLACE) {
            // what the holes of another program meet there; gaps between grooves are as they are
            return sameSide(root, other)
                    && root.program() != null
                    && other.program() != null
                    && !root.program().equals(other.program());
        }
        return follow == OF_PLACE ? sameSide(root, other) : sameOrigin(root, other);
    }

    /** Whether a finding says that copper work as a whole is missing where it belongs. */
    private static boolean leavesCopper(Finding root) {
        return root.kind().equals(Kinds.UNITS_UNSET) && root.measured() != null
                || root.kind().equals(Kinds.PROGRAM_ERROR)
                || root.kind().equals(Kinds.PROGRAM_TRUNCATED);
    }

    /** Whether the box of a finding holds the place of another, a cell or so aside. */
    private static boolean holds(Finding box, Finding place) {
        double[] b = box.boxMm();
        double[] p = place.atMm();
        return b != null
                && p != null
                && p[0] > b[0] - BESIDE_MM
                && p[0] < b[2] + BESIDE_MM
                && p[1] > b[1] - BESIDE_MM
                && p[1] < b[3] + BESIDE_MM;
    }

    private static boolean sameOrigin(Finding root, Finding other) {
        if (root.program() != null && other.program() != null) {
            return root.program().equals(other.program());
        }
        return root.tool() != null && root.tool().equals(other.tool());
    }

    private static boolean sameSide(Finding root, Finding other) {
        boolean note = other.severity() == Severity.NOTE;
        return !note
                && (root.side() == null || other.side() == null || root.side().equals(other.side()));
    }

    private static double orLast(@Nullable Double value) {
        return value == null ? Double.MAX_VALUE : value;
    }
}
