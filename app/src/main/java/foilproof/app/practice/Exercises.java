package foilproof.app.practice;

import foilproof.app.practice.Exercise.Planted;
import foilproof.app.practice.Exercise.Predicted;
import foilproof.app.practice.Exercise.Weight;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** The exercises that are built, and the words for causes. */
public final class Exercises {
    /** Words for causes, the same for all exercises. */
    public static final List<String> CAUSES = List.of(
            "depth-slip",
            "low-place",
            "step-over",
            "mirrored",
            "turned-wrong",
            "touch-off-spoilt",
            "cutter-left-in-collet",
            "part-free",
            "foil-thinner-than-thought",
            "narrow-copper",
            "narrow-gap",
            "short",
            "tilt",
            "backlash",
            "worn-tip",
            "too-deep",
            "not-through",
            "wrong-z-zero",
            "thin-margin",
            "units-or-feed",
            "work-zero-shifted");

    private static final String SENSOR = "A plant-pot moisture sensor, 30 x 20 mm, half-ounce FR-1 of 1/32 in. T1 mills"
            + " the isolation, T2 the outline. Go through job and programs as if the blank lay on the machine.";

    private static final List<String> SENSOR_FACTS =
            List.of("thickness = \"1/32 in\"", "foil = \"0.5 oz\"", "z = [\"-0.040 mm\", \"0.030 mm\"]");

    private static final List<Exercise> ALL = List.of(e1(), e2(), e3(), e4(), e5(), e6(), e7(), e8());

    private Exercises() {}

    /** All that are built, in order. */
    public static List<Exercise> all() {
        return ALL;
    }

    /** The exercise of that name; null where there is none. */
    public static @Nullable Exercise of(String id) {
        for (Exercise exercise : ALL) {
            if (exercise.id().equalsIgnoreCase(id)) {
                return exercise;
            }
        }
        return null;
    }

    private static Planted fault(
            String cause, Set<String> also, Weight weight, List<double[]> places, String why, String... kinds) {
        return new Planted(cause, also, weight, places, why, Set.of(kinds), false);
    }

    private static double[] box(double x0, double y0, double x1, double y1) {
        return new double[] {x0, y0, x1, y1};
    }

    private static Exercise e1() {
        return new Exercise(
                "E1",
                1,
                "Plant-pot moisture sensor",
                SENSOR,
                List.of(fault(
                        "depth-slip",
                        Set.of("wrong-z-zero"),
                        Weight.STOP,
                        List.of(box(6, 6, 36, 26)),
                        "The copper is milled 0.010 mm deep where 0.1 was meant, not 0.01: of 17.4 um of foil 7.4 um stay"
                                + " in nearly every groove.",
                        "wrong-z-reference",
                        "foil-left")),
                List.of(fault("thin-margin", Set.of(), Weight.WATCH, List.of(box(0, 0, 42, 32)), "It follows.")),
                // Half an ounce a square foot is 17.4 um (design.md section 4); 17.4 - 10.0 = 7.4.
                List.of(new Predicted(
                        "foil_left", "Thickness of foil left in the isolation grooves", "mm", 0.0174 - 0.010, 0.1)),
                SENSOR_FACTS);
    }

    private static Exercise e2() {
        return new Exercise(
                "E2",
                1,
                "Plant-pot moisture sensor, another day",
                SENSOR,
                List.of(),
                List.of(),
                // Foil 17.4 um and 5 um below it are cleared up to 0.1000 - 0.0224; the duty ends at 0.150.
                List.of(
                        new Predicted(
                                "shallower",
                                "How much shallower T1 may run and still clear the foil",
                                "mm",
                                0.0776,
                                0.15),
                        new Predicted("deeper", "How much deeper T1 may run before its duty ends", "mm", 0.050, 0.15)),
                SENSOR_FACTS);
    }

    private static Exercise e3() {
        // A groove of depth d is 0.10 + 2 (d - foil) tan 15 deg wide at the foil bottom.
        double baseMm = 0.16 - (0.10 + 2 * (0.100 - 0.0348) * StrictMath.tan(StrictMath.toRadians(15)));
        // Foil is left where the blank lies lower than 0.100 - 0.0348.
        double radiusMm = Planter.DISH_RADIUS_MM * Math.sqrt(1 - (0.100 - 0.0348) / Planter.DISH_DEPTH_MM);
        return new Exercise(
                "E3",
                2,
                "Shelf-light dimmer",
                "A shelf-light dimmer, 45 x 30 mm, one-ounce FR-1, milled with an engraving bit of 30 deg and a tip of"
                        + " 0.10 mm. The blank was touched all over; its surface stands in the job file.",
                List.of(
                        fault(
                                "low-place",
                                Set.of(),
                                Weight.STOP,
                                List.of(box(30 - radiusMm, 22.5 - radiusMm, 30 + radiusMm, 22.5 + radiusMm)),
                                "The middle lies 0.08 mm low, so 0.100 mm of depth become 0.02 there, less than the foil"
                                        + " of 34.8 um; depth or a flat blank cures it.",
                                "foil-left"),
                        fault(
                                "step-over",
                                Set.of(),
                                Weight.FIX,
                                List.of(box(47.5, 19.5, 49.9, 25.5)),
                                "Grooves 0.135 mm wide at the foil bottom lie 0.160 mm apart: hairs of 0.025 mm stay;"
                                        + " a smaller step-over cures it, a flat blank does not.",
                                "hair")),
                List.of(
                        fault("thin-margin", Set.of(), Weight.WATCH, List.of(box(0, 0, 60, 45)), "It follows."),
                        fault(
                                "narrow-gap",
                                Set.of(),
                                Weight.WATCH,
                                List.of(box(8, 8, 52, 37)),
                                "A gap of 0.135 mm is narrow.")),
                List.of(
                        new Predicted("patch_radius", "Radius of the patch where foil is left", "mm", radiusMm, 0.3),
                        new Predicted("hair_base", "Width of the hairs at the foil bottom", "mm", baseMm, 0.3)),
                List.of(
                        "thickness = \"1.5 mm\"",
                        "foil = \"1 oz\"",
                        "tip_width = \"0.10 mm\"",
                        "included_angle = \"30 deg\""));
    }

    private static Exercise e4() {
        return new Exercise(
                "E4",
                2,
                "Doorbell relay board",
                "A doorbell relay board, 40 x 30 mm, parts through holes, copper on the bottom, milled with the bottom up."
                        + " Layer image and netlist lie beside the program. Predict what meets what.",
                List.of(fault(
                        "mirrored",
                        Set.of("turned-wrong"),
                        Weight.STOP,
                        List.of(box(13, 12, 47, 34)),
                        "The layer was exported as seen from the top and milled from the bottom: every groove lies"
                                + " mirrored in X, K1 pin 3 meets pin 4, D1 pin 1 meets pin 2.",
                        "mirrored",
                        "short",
                        "open",
                        "severed-copper")),
                List.of(
                        fault("thin-margin", Set.of(), Weight.WATCH, List.of(box(0, 0, 60, 45)), "It follows."),
                        fault(
                                "short",
                                Set.of("work-zero-shifted"),
                                Weight.WATCH,
                                List.of(box(10, 8, 50, 38)),
                                "It follows.")),
                // The layer's groove at x = 22 belongs at program X 40 - 22 = 18; the program mills X 22.
                List.of(new Predicted(
                        "off_by",
                        "By how much the groove milled at program X22 misses the nearest groove that the layer wants",
                        "mm",
                        4.0,
                        0.1)),
                List.of(
                        "bottom_copper = \"bottom.gbr\"",
                        "thickness = \"1.5 mm\"",
                        "foil = \"0.5 oz\"",
                        "turned = \"no\""));
    }

    private static Exercise e5() {
        return new Exercise(
                "E5",
                3,
                "Greenhouse vent controller",
                "A greenhouse vent controller, 50 x 40 mm, copper on both sides; the programs of the second side are made"
                        + " for a blank turned about Y. Three wire holes of 1.00 mm are bored before it is turned. Layer"
                        + " images lie beside the programs; the job file says what was done at the machine.",
                List.of(
                        fault(
                                "turned-wrong",
                                Set.of("mirrored", "short"),
                                Weight.STOP,
                                List.of(box(5, 5, 55, 45)),
                                "The blank was turned about X, the second side was made for about Y: its copper lies half"
                                        + " a turn away from where it belongs, over the wrong copper of the first side.",
                                "mirrored",
                                "sides-shifted",
                                "turned-wrong",
                                "short",
                                "open",
                                "severed-copper"),
                        fault(
                                "touch-off-spoilt",
                                Set.of("wrong-z-zero"),
                                Weight.STOP,
                                List.of(box(6.5, 25, 6.5, 25)),
                                "The second cutter was touched off in the groove that the first had milled: its zero lies"
                                        + " 0.10 mm too low.",
                                "touch-off-spoilt")),
                List.of(fault("thin-margin", Set.of(), Weight.WATCH, List.of(box(0, 0, 60, 50)), "It follows.")),
                List.of(
                        new Predicted("zero_low", "How much too low the second cutter's zero lies", "mm", 0.100, 0.1),
                        // Design (x, y) lies at (55 - x, 45 - y) as turned; the groove at design x = 33 is milled at
                        // 38.
                        new Predicted(
                                "lies_at",
                                "X on the blank, second side up, at which the groove of program X33 is milled",
                                "mm",
                                38.0,
                                0.02)),
                List.of("turned = \"about X\"", "thickness = \"1.5 mm\"", "foil = \"0.5 oz\""));
    }

    /** Rise over ambient of an outer trace, kelvin: I = 0.048 dT^0.44 A^0.725, A in square thou (IPC-2221). */
    private static double riseK(double amps, double widthMm, double foilMm) {
        double area = widthMm * foilMm / (0.0254 * 0.0254);
        return StrictMath.pow(amps / (0.048 * StrictMath.pow(area, 0.725)), 1 / 0.44);
    }

    private static Exercise e6() {
        return new Exercise(
                "E6",
                3,
                "Bicycle-lamp driver",
                "A bicycle-lamp driver, 7.4 V and 3 A, 40 x 30 mm. Its feed is 2.4 mm wide with a neck of 1.2 mm beside a"
                        + " screw; it was laid out for one-ounce foil. Which section gets how warm, and what would help?",
                List.of(fault(
                        "foil-thinner-than-thought",
                        Set.of("narrow-copper"),
                        Weight.WATCH,
                        // the neck, design X 18 to 21, seen from below: blank X 60 - 10 - 21 to 60 - 10 - 18
                        List.of(box(29, 16, 32, 17.2)),
                        "The blank has half-ounce foil: at 3 A the neck rises by about 39 K, three times what it would in"
                                + " one-ounce; the wide parts stay below 13 K.",
                        "hot-trace")),
                List.of(
                        fault("thin-margin", Set.of(), Weight.WATCH, List.of(box(0, 0, 60, 45)), "It follows."),
                        fault("narrow-gap", Set.of(), Weight.WATCH, List.of(box(0, 0, 60, 45)), "It is 0.794 wide.")),
                List.of(
                        new Predicted(
                                "neck_rise", "Rise of the neck over the air, kelvin", "K", riseK(3, 1.2, 0.0174), 0.25),
                        new Predicted(
                                "wide_rise", "Rise of the 2.4 mm wide part, kelvin", "K", riseK(3, 2.4, 0.0174), 0.25),
                        new Predicted(
                                "in_one_ounce",
                                "Rise of the neck had the foil been one-ounce, kelvin",
                                "K",
                                riseK(3, 1.2, 0.0348),
                                0.25),
                        // 0.3 mm of solder beside 17.4 um of copper: 1 + 0.3 / 0.0174 x 17.2 / 145 (nohm m, from
                        // memory)
                        new Predicted(
                                "flood",
                                "How many times the copper section 0.3 mm of solder make of it",
                                "times",
                                1 + 0.3 / 0.0174 * (0.0172 / 0.145),
                                0.2)),
                List.of("foil = \"0.5 oz\"", "current = \"3 A\""));
    }

    private static Exercise e8() {
        return new Exercise(
                "E8",
                4,
                "Workshop clock, after the fact",
                "Post-mortem. The job and its program are right; what came off the machine stands in the picture"
                        + " photo.png: grooves wide at the left and fading to nothing at the right, every loop with a step"
                        + " at the same place. Two different things were wrong at the machine: what, where to see it, how"
                        + " much; and which measurement would prove each?",
                List.of(
                        fault(
                                "tilt",
                                Set.of("low-place"),
                                Weight.FIX,
                                List.of(box(6, 8, 53, 32)),
                                "The right end lay 0.20 mm lower than the left one: 0.120 mm of depth become 0.205 at the"
                                        + " left and nothing at the right. Touching the foil at both ends proves it.",
                                "foil-left",
                                "tilt"),
                        fault(
                                "backlash",
                                Set.of(),
                                Weight.WATCH,
                                List.of(box(5.5, 18, 6.5, 22), box(22.5, 18, 23.5, 22), box(39.5, 18, 40.5, 22)),
                                "X lags 0.06 mm behind after each turn, so a loop that begins and ends in the middle of"
                                        + " its left side steps there. A dial on the table, moved to and fro, proves it."
                                        + " The dry run models no lost motion: this one only the picture tells.")),
                List.of(
                        fault(
                                "too-deep",
                                Set.of(),
                                Weight.WATCH,
                                List.of(box(0, 0, 60, 40)),
                                "It follows at the left."),
                        fault(
                                "narrow-gap",
                                Set.of(),
                                Weight.WATCH,
                                List.of(box(0, 0, 60, 40)),
                                "It follows at the right."),
                        fault("thin-margin", Set.of(), Weight.WATCH, List.of(box(0, 0, 60, 40)), "It follows.")),
                List.of(
                        new Predicted(
                                "tilt",
                                "Difference of height of the foil across the copper work",
                                "mm",
                                Planter.TILT_MM,
                                0.3),
                        new Predicted("backlash", "Lost way of X", "mm", Planter.BACKLASH_MM, 0.3)),
                List.of("foil = \"0.5 oz\""));
    }

    private static Exercise e7() {
        // A cone of 0.10 + 2 (1.80 - z) tan 15 deg is 0.60 wide at z.
        double stopsMm = 1.80 - (0.60 - 0.10) / (2 * StrictMath.tan(StrictMath.toRadians(15)));
        return new Exercise(
                "E7",
                4,
                "Drum-trigger panel",
                "A drum-trigger panel, 90 x 60 mm, on a blank of 1.6 mm: copper, five bores of 0.8 mm for wires, outline"
                        + " and a mounting hole. What really happens at each tool change?",
                List.of(
                        fault(
                                "cutter-left-in-collet",
                                Set.of(),
                                Weight.STOP,
                                List.of(
                                        box(22, 37, 22, 37),
                                        box(37, 37, 37, 37),
                                        box(52, 37, 52, 37),
                                        box(67, 37, 67, 37),
                                        box(82, 37, 82, 37)),
                                "M6 does nothing on this machine and no stop follows it, so the engraving bit bores: its"
                                        + " cone ends the 0.60 mm wire 0.87 mm down.",
                                "length-offset",
                                "wrong-bit-drilling"),
                        fault(
                                "part-free",
                                Set.of(),
                                Weight.WATCH,
                                List.of(box(50.5, 55.5, 53.5, 58.5), box(6.603, 6.603, 6.603, 6.603)),
                                "The outline goes through without tabs before the mounting hole is milled: the part is"
                                        + " free by then.",
                                "part-free",
                                "order")),
                List.of(),
                List.of(
                        new Predicted("wire_stops", "How far down a wire of 0.60 mm stops", "mm", stopsMm, 0.1),
                        new Predicted("free_line", "Line of outline.ngc that frees the part", "line", 30, 0.001)),
                List.of("thickness = \"1.6 mm\"", "on_tool_change = \"ignored\"", "included_angle = \"30 deg\""));
    }
}
