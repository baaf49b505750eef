package foilproof.findings;

import static foilproof.findings.Certainty.GEOMETRY;
import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.start;
import static foilproof.findings.Programs.text;
import static foilproof.findings.Severity.STOP;

import org.junit.jupiter.api.Test;

/**
 * Isolation loops that do not close (catalogue of needs, row E1: a residual neck of foil above 0 at nominal is a stop). The
 * neck between two round ends of a flat cutter is the distance of their middles less its diameter: closed form.
 */
class OpenLoopsTest {
    private static final double DIAMETER_MM = 0.8;
    private static final double[] TURNS_DEG = {0, 30, 90, 137, 270};

    /** A way through points of a frame whose middle lies at (10, 7.5), turned by an angle. */
    private static String way(double turnDeg, double z, double... points) {
        double c = StrictMath.cos(StrictMath.toRadians(turnDeg));
        double s = StrictMath.sin(StrictMath.toRadians(turnDeg));
        StringBuilder t = new StringBuilder();
        for (int k = 0; k + 1 < points.length; k += 2) {
            double x = 10 + c * points[k] - s * points[k + 1];
            double y = 7.5 + s * points[k] + c * points[k + 1];
            t.append(k == 0 ? text("G0 X%s Y%s\nG0 Z1\nG1 Z%s F90\n", x, y, z) : text("G1 X%s Y%s F300\n", x, y));
        }
        return t.append("G0 Z5\n").toString();
    }

    private static Bench loop(int tool, double turnDeg, double... points) {
        return Bench.job()
                .cellUm(10)
                .program("a.ngc", start(tool) + way(turnDeg, -0.1, points) + END, "work", "isolation");
    }

    /** A square that begins in its corner and comes back to it along the other side, its middle short by so much. */
    private static double[] shortOfItsCorner(double mm) {
        return new double[] {-3, -3, 3, -3, 3, 3, -3, 3, -3, -3 + mm};
    }

    @Test
    @Fires("E1 short")
    void shouldStopAtALoopThatIsOpenAtItsCornerByThreeHundredthsInAnyDirection() {
        for (double turn : TURNS_DEG) {
            loop(2, turn, shortOfItsCorner(DIAMETER_MM + 0.03))
                    .raises(Kinds.SHORT, STOP, GEOMETRY)
                    .measuring(0.03, "mm", 0.003)
                    .against(0);
        }
    }

    @Test
    @Fires("E1 short")
    void shouldStopWhereTheWayBackRunsOnBesideItsStart() {
        // the first cut begins 0.83 mm inside the corner that the way back runs into
        double beside = DIAMETER_MM + 0.03;
        loop(2, 30, -3 + beside, -3, 3, -3, 3, 3, -3, 3, -3, -3)
                .raises(Kinds.SHORT, STOP, GEOMETRY)
                .measuring(0.03, "mm", 0.003);
        // the way back passes beside the start by a lead-over that lies 0.83 mm off
        loop(2, 30, -1, -3, 3, -3, 3, 3, -3, 3, -3, -3 - beside, -0.6, -3 - beside)
                .raises(Kinds.SHORT, STOP, GEOMETRY)
                .measuring(0.03, "mm", 0.003);
        // across the corner, 0.6 mm short along both sides: 0.849 - 0.8
        loop(2, 30, -2.4, -3, 3, -3, 3, 3, -3, 3, -3, -2.4)
                .raises(Kinds.SHORT, STOP, GEOMETRY)
                .measuring(0.6 * StrictMath.sqrt(2) - DIAMETER_MM, "mm", 0.003);
    }

    @Test
    @Fires("E1 short")
    void shouldStopAtALoopOfAnEngravingBitThatIsOpenAtItsCorner() {
        // 30 deg, tip 0.12 mm, 0.1 mm deep, half-ounce foil: the groove is 0.12 + 2 (0.1 - 0.0174) tan 15 deg at its
        // bottom
        double groove = 0.12 + 2 * (0.1 - 0.0174) * StrictMath.tan(StrictMath.toRadians(15));
        for (double turn : TURNS_DEG) {
            loop(1, turn, shortOfItsCorner(groove + 0.03))
                    .raises(Kinds.SHORT, STOP, GEOMETRY)
                    .measuring(0.03, "mm", 0.003);
        }
    }

    @Test
    @Silent("E1 short")
    void shouldNotMindALoopThatJustClosesAtItsCorner() {
        for (double turn : TURNS_DEG) {
            loop(2, turn, shortOfItsCorner(DIAMETER_MM - 0.01)).isSilentOn(Kinds.SHORT);
        }
        loop(2, 30, -3 + DIAMETER_MM - 0.01, -3, 3, -3, 3, 3, -3, 3, -3, -3).isSilentOn(Kinds.SHORT);
    }

    @Test
    @Silent("E1 short")
    void shouldNotMindGroovesThatComeBackBesideTheirStartOnPurpose() {
        // there and back on both sides of a trace that leaves the board's copper: 0.4 mm of it stay
        loop(2, 30, -3, -0.6, 3, -0.6, 3, 0.6, -3, 0.6).isSilentOn(Kinds.SHORT);
        // a comb: every row beside the one before
        loop(2, 0, -3, -3, 3, -3, 3, -1.8, -3, -1.8, -3, -0.6, 3, -0.6, 3, 0.6, -3, 0.6)
                .isSilentOn(Kinds.SHORT);
        // a land whose trace runs on between two grooves of its own
        String land = way(0, -0.1, 0.6, 0.4, 0.6, 2, -2, 2, -2, -2, 0.6, -2, 0.6, -0.4);
        String beside = way(0, -0.1, 0.6, 0.6, 5, 0.6) + way(0, -0.1, 0.6, -0.6, 5, -0.6);
        Bench.job()
                .cellUm(10)
                .program("a.ngc", start(2) + land + beside + END, "work", "isolation")
                .isSilentOn(Kinds.SHORT);
    }
}
