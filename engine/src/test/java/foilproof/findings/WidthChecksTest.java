package foilproof.findings;

import static foilproof.findings.Certainty.GEOMETRY;
import static foilproof.findings.Certainty.RULE_OF_THUMB;
import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.line;
import static foilproof.findings.Programs.rectangle;
import static foilproof.findings.Programs.start;
import static foilproof.findings.Programs.text;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.WATCH;

import java.util.Random;
import org.junit.jupiter.api.Test;

/**
 * Strips, spikes and edges. The engraver at 0.1 mm below the foil top is 0.12 + 2 x (0.1 - 0.0174) x tan 15 deg =
 * 0.1643 mm wide at the bottom of half-ounce foil (closed form, check-values Q7); a strip is the step-over less that.
 */
class WidthChecksTest {
    private static final double TAN = StrictMath.tan(Math.PI / 12);
    private static final double BOTTOM_MM = 0.12 + 2 * (0.1 - 0.0174) * TAN;

    private static Bench fine() {
        return Bench.job().cellUm(10);
    }

    /** Two parallel grooves at an angle, as straight lines or as arcs of 9 mm radius, that leave a strip so wide. */
    private static String pair(int tool, double step, double degrees, double shift, boolean arcs) {
        double c = StrictMath.cos(StrictMath.toRadians(degrees));
        double s = StrictMath.sin(StrictMath.toRadians(degrees));
        StringBuilder t = new StringBuilder(start(tool));
        for (int k = -1; k <= 1; k += 2) {
            double o = 0.5 * k * step;
            double mx = 10 + shift - o * s;
            double my = 7.5 + 0.7 * shift + o * c;
            t.append(text("G0 X%s Y%s\nG0 Z1\nG1 Z-0.1 F90\n", mx - 3 * c, my - 3 * s));
            if (arcs) {
                // concentric about a centre 9 mm off: the radius differs by the step
                double r = 9 - o;
                double half = StrictMath.asin(3 / 9.0);
                double cx = 10 + shift - 9 * s;
                double cy = 7.5 + 0.7 * shift + 9 * c;
                double a = StrictMath.toRadians(degrees - 90);
                t.setLength(t.length()
                        - text("G0 X%s Y%s\nG0 Z1\nG1 Z-0.1 F90\n", mx - 3 * c, my - 3 * s)
                                .length());
                double x0 = cx + r * StrictMath.cos(a - half);
                double y0 = cy + r * StrictMath.sin(a - half);
                double x1 = cx + r * StrictMath.cos(a + half);
                double y1 = cy + r * StrictMath.sin(a + half);
                t.append(text("G0 X%s Y%s\nG0 Z1\nG1 Z-0.1 F90\n", x0, y0));
                t.append(text("G3 X%s Y%s I%s J%s F300\nG0 Z5\n", x1, y1, cx - x0, cy - y0));
            } else {
                t.append(text("G1 X%s Y%s F300\nG0 Z5\n", mx + 3 * c, my + 3 * s));
            }
        }
        return t.append(END).toString();
    }

    /** 12 seeded angles and places: just inside each limit the lower grade, just beyond it the higher one. */
    @Test
    @Fires({"F1 hair", "F1 sliver"})
    @Silent({"F1 hair", "F1 sliver"})
    void shouldGradeStripsAtAnyAngleJustOnBothSidesOfEachLimit() {
        long seed = 20261125;
        Random random = new Random(seed);
        for (int k = 0; k < 12; k++) {
            double degrees = 90 * random.nextDouble();
            double shift = 0.01 * random.nextDouble();
            boolean flat = k % 3 == 2;
            boolean arcs = k % 2 == 1;
            boolean ounce = k % 4 > 1;
            double width = flat ? 0.8 : 0.12 + 2 * (0.1 - (ounce ? 0.0348 : 0.0174)) * TAN;
            double[] bases = {0.048, 0.052, 0.148, 0.152, 0.248, 0.252};
            double base = bases[k % 6];
            String what = k + " of seed " + seed;
            Verdicts v = fine().blank("foil", ounce ? "1 oz" : "0.5 oz")
                    .runs(pair(flat ? 3 : 1, base + width, degrees, shift, arcs))
                    .examined();
            if (base > 0.25) {
                v.isSilentOn(Kinds.SLIVER).isSilentOn(Kinds.HAIR);
            } else if (base > 0.05) {
                v.isSilentOn(Kinds.HAIR)
                        .raises(Kinds.SLIVER, WATCH, RULE_OF_THUMB)
                        .measuring(base, "mm", 0.002)
                        .against(base < 0.15 ? 0.15 : 0.25);
            } else {
                v.isSilentOn(Kinds.SLIVER).raises(Kinds.HAIR, FIX, GEOMETRY).measuring(base, "mm", 0.002);
            }
            org.assertj.core.api.Assertions.assertThat(v.findings()).as(what).isNotNull();
        }
    }

    @Test
    @Fires("F1 hair")
    @Silent("F1 hair")
    void shouldGradeByTheShopsOwnWidths() {
        String program = pair(1, 0.06 + BOTTOM_MM, 0, 0, false);
        fine().also("[limits]\nhair_width = \"0.08 mm\"")
                .runs(program)
                .raises(Kinds.HAIR, FIX, GEOMETRY)
                .against(0.08);
        fine().also("[limits]\nhair_width = \"0.03 mm\"\nsliver_width = \"0.05 mm\"")
                .runs(program)
                .isSilentOn(Kinds.HAIR)
                .raises(Kinds.SLIVER, WATCH, RULE_OF_THUMB)
                .against(0.25);
        fine().also("[limits]\nthin_width = \"0.05 mm\"\nsliver_width = \"0.05 mm\"\nhair_width = \"0.02 mm\"")
                .runs(program)
                .isSilentOn(Kinds.HAIR)
                .isSilentOn(Kinds.SLIVER);
    }

    /** A hair so long between two open grooves, and a pad so far away. */
    private static String hairAndPad(double length, double gap) {
        double step = 0.03 + BOTTOM_MM;
        double y = 5 + step + BOTTOM_MM / 2 + gap;
        return start(1)
                + line(3, 5, 3 + length, 5, -0.1)
                + line(3, 5 + step, 3 + length, 5 + step, -0.1)
                + rectangle(3, y + 0.0, 8, y + 3, -0.1)
                + END;
    }

    @Test
    @Fires({"F4 hair", "J9 hair"})
    void shouldOnlyWatchAHairThatReachesNoOtherCopper() {
        fine().runs(hairAndPad(1.2, 2.5))
                .raises(Kinds.HAIR, WATCH, RULE_OF_THUMB)
                .saying("within its reach");
    }

    @Test
    @Silent({"F4 hair", "J9 hair"})
    void shouldAskToMendAHairThatReachesOtherCopper() {
        fine().runs(hairAndPad(3.5, 2.5)).raises(Kinds.HAIR, FIX, GEOMETRY);
    }

    @Test
    @Fires("F3 hair")
    void shouldRaiseAShortHairWithAFreeEndByOneGrade() {
        double step = 0.03 + BOTTOM_MM;
        fine().runs(start(1)
                        + line(3, 5, 4.2, 5, -0.1)
                        + line(3, 5 + step, 4.2, 5 + step, -0.1)
                        + line(4.2, 4.6, 4.2, 5.6, -0.1)
                        + rectangle(3, 9, 8, 12, -0.1)
                        + END)
                .raises(Kinds.HAIR, FIX, RULE_OF_THUMB)
                .saying("one free end");
    }

    @Test
    @Silent("F3 hair")
    void shouldNotRaiseAHairHeldAtBothEnds() {
        fine().runs(hairAndPad(1.2, 3)).raises(Kinds.HAIR, WATCH, RULE_OF_THUMB).saying("held at both ends");
    }

    // ---- F6

    /** Two grooves that run out from one place at an angle. */
    private static Bench fan(double degrees) {
        double a = StrictMath.toRadians(degrees);
        return fine().runs(start(1)
                + line(3, 3, 13, 3, -0.1)
                + line(3, 3, 3 + 9 * StrictMath.cos(a), 3 + 9 * StrictMath.sin(a), -0.1)
                + END);
    }

    @Test
    @Fires("F6 sliver")
    void shouldWatchASpikeBetweenTwoGroovesThatMeetAtAnAcuteAngle() {
        fan(12).isSilentOn(Kinds.THIN_TRACE)
                .raises(Kinds.SLIVER, WATCH, RULE_OF_THUMB)
                .saying("spike");
        fan(24).raises(Kinds.SLIVER, WATCH, RULE_OF_THUMB).saying("spike");
    }

    @Test
    @Silent("F6 sliver")
    void shouldNotMindGroovesThatMeetAtThirtyDegreesAndMore() {
        for (double degrees : new double[] {31, 45, 60, 90}) {
            fan(degrees).isSilentOn(Kinds.SLIVER).isSilentOn(Kinds.HAIR).isSilentOn(Kinds.THIN_TRACE);
        }
    }

    /** The limit counts in degrees of the angle between the walls. */
    @Test
    void shouldTellSpikesBelowTheShopsOwnAngle() {
        String limit = "[limits]\nspike_angle = \"18 deg\"";
        fan(12).also(limit).raises(Kinds.SLIVER, WATCH, RULE_OF_THUMB).saying("spike");
        fan(17).also(limit).raises(Kinds.SLIVER, WATCH, RULE_OF_THUMB).saying("spike");
    }

    @Test
    void shouldNotMindSpikesAboveTheShopsOwnAngle() {
        String limit = "[limits]\nspike_angle = \"18 deg\"";
        fan(19).also(limit).isSilentOn(Kinds.SLIVER);
        fan(24).also(limit).isSilentOn(Kinds.SLIVER);
    }

    // ---- F7

    private static Bench alongTheEdge(double left) {
        double y = 15 - left - BOTTOM_MM / 2;
        return fine().runs(start(1) + line(3, y, 13, y, -0.1) + END);
    }

    @Test
    @Fires("F7 sliver")
    void shouldWatchAStripThatStaysBetweenAGrooveAndTheBlanksEdge() {
        alongTheEdge(0.245)
                .raises(Kinds.SLIVER, WATCH, RULE_OF_THUMB)
                .measuring(0.245, "mm", 0.002)
                .against(0.25)
                .saying("the edge of the blank");
    }

    @Test
    @Silent("F7 sliver")
    void shouldNotMindAQuarterAtTheEdgeNorWasteBesideAPartThatIsCutOut() {
        alongTheEdge(0.255).isSilentOn(Kinds.SLIVER);
        double y = 15 - 0.2 - BOTTOM_MM / 2;
        fine().program("a.ngc", start(1) + line(3, y, 13, y, -0.1) + rectangle(5, 5, 10, 9, -0.1) + END)
                .program("b.ngc", start(2) + rectangle(3, 3, 13, 11, -1.6) + END, "work", "outline")
                .isSilentOn(Kinds.SLIVER);
    }
}
