package foilproof.language;

import static foilproof.language.Listing.run;
import static foilproof.language.Listing.strict;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Point;

/** Radius compensation beyond table 13: distances from the programmed path, judged by JTS and closed forms. */
class CompensationTest {
    private static final GeometryFactory JTS = new GeometryFactory();

    @Test // appendix B: the centre keeps the cutter's radius from the path, arcs at the corners included
    void shouldKeepTheCuttersRadiusFromConvexPaths() {
        long seed = 404;
        Random random = new Random(seed);
        for (int round = 0; round < 60; round++) {
            boolean clockwise = random.nextBoolean();
            int corners = 3 + random.nextInt(9);
            double[] angles = random.doubles(corners, 0, 2 * Math.PI).sorted().toArray();
            List<Coordinate> path = new ArrayList<>();
            for (int i = 0; i <= corners; i++) {
                double angle = angles[(clockwise ? corners - i : i) % corners];
                path.add(new Coordinate(rounded(20 * Math.cos(angle)), rounded(20 * Math.sin(angle))));
            }
            // From behind the first corner, so that the entry is no inside corner.
            double back = 5 / path.get(0).distance(path.get(1));
            List<String> lines = new ArrayList<>(List.of(
                    "T1 M6",
                    String.format(
                            Locale.ROOT,
                            "G0 X%.4f Y%.4f F100",
                            path.get(0).x - back * (path.get(1).x - path.get(0).x),
                            path.get(0).y - back * (path.get(1).y - path.get(0).y))));
            lines.add(String.format(
                    Locale.ROOT, "%s G1 X%.4f Y%.4f", clockwise ? "G41" : "G42", path.get(0).x, path.get(0).y));
            for (Coordinate c : path.subList(1, path.size())) {
                lines.add(String.format(Locale.ROOT, "X%.4f Y%.4f", c.x, c.y));
            }
            lines.add("G40");
            Listing listing = run(strict(), lines.toArray(new String[0]));
            assertThat(listing.errorCodes()).as("seed %d round %d", seed, round).isEmpty();
            LineString programmed = JTS.createLineString(path.toArray(new Coordinate[0]));
            CanonicalProgram c = listing.commands();
            for (int i = 0; i < c.size(); i++) {
                if (c.isMotion(i) && c.line(i) > 4) {
                    assertDistance(c, i, programmed, "seed " + seed + " round " + round + " line " + c.line(i));
                }
            }
        }
    }

    private static double rounded(double value) {
        return Math.rint(value * 10_000) / 10_000;
    }

    private static void assertDistance(CanonicalProgram c, int i, LineString programmed, String what) {
        for (double t = 0; t <= 1; t += 0.125) {
            double x = c.startMm(i, 0) + t * (c.endMm(i, 0) - c.startMm(i, 0));
            double y = c.startMm(i, 1) + t * (c.endMm(i, 1) - c.startMm(i, 1));
            if (c.kind(i) == CommandKind.ARC_FEED) {
                double cx = c.centreFirstMm(i);
                double cy = c.centreSecondMm(i);
                double angle = Math.atan2(c.startMm(i, 1) - cy, c.startMm(i, 0) - cx) + t * c.sweepRad(i);
                x = cx + 0.5 * Math.cos(angle);
                y = cy + 0.5 * Math.sin(angle);
            }
            Point p = JTS.createPoint(new Coordinate(x, y));
            assertThat(p.distance(programmed)).as(what).isCloseTo(0.5, within(1e-9));
        }
    }

    @Test // appendix B, entry on an arc: both circles have one centre (closed form)
    void shouldEnterOnAnArc() {
        assertThat(run(strict(), "T1 M6", "G0 Y-1.5 F100", "G41 G3 X2 Y0 J1.5").motionsFromLine(3))
                .containsExactly("A(1.5,0, 0,0, 1, 0)");
        assertThat(run(strict(), "T1 M6", "G0 Y-1.5 F100", "G41 G3 X2 Y0 R2").motionsFromLine(3))
                .containsExactly("A(1.5,0, 0,0, 1, 0)");
        assertThat(run(strict(), "T1 M6", "G0 Y-2.5 F100", "G42 G3 X2 Y0 J2.5").motionsFromLine(3))
                .containsExactly("A(2.5,0, 0,0, 1, 0)");
        assertThat(run(strict(), "T1 M6", "G0 Y-2 F100", "G41 G3 X2 Y0 J2").errorCodes())
                .containsExactly("arc-radii");
        assertThat(run(strict(), "T1 M6", "G0 Y-1.5 F100", "G41 G3 X0.4 Y0 J1.5")
                        .errorCodes())
                .containsExactly("comp-arc");
    }

    @Test // section 3.5.19 and appendix B: the time of a line is that of its whole path
    void shouldShareTheInverseTimeOfALineBetweenCornerAndMove() {
        CanonicalProgram c =
                run(strict(), "T1 M6", "G93 G41 G1 X5 F2", "X10 F2", "Y-10 F4").commands();
        double seconds = 0;
        List<Double> speeds = new ArrayList<>();
        for (int i = 0; i < c.size(); i++) {
            if (c.isMotion(i) && c.line(i) == 4) {
                double length = c.kind(i) == CommandKind.ARC_FEED ? 0.5 * Math.abs(c.sweepRad(i)) : 10;
                seconds += c.moveS(i);
                speeds.add(length / c.moveS(i));
            }
        }
        assertThat(seconds).isCloseTo(15, within(1e-9));
        assertThat(speeds).hasSize(2);
        assertThat(speeds.get(0)).isCloseTo(speeds.get(1), within(1e-9));
    }

    @Test // section 3.5.10: moves of Z alone stay beside the path; G40 makes no move of its own
    void shouldMoveZAloneBesideThePath() {
        assertThat(run(strict(), "T1 M6", "G41 G1 X5 F100", "X10", "Z-1", "G40", "Z0", "X12")
                        .motionsFromLine(3))
                .containsExactly("A(5,0.5, 5,0, -1, 0)", "F(10,0.5,0)", "F(10,0.5,-1)", "F(10,0.5,0)", "F(12,0.5,0)");
    }

    @Test // section 3.3.7: increments count from the programmed point, not from where the tool stands
    void shouldCountIncrementsFromTheProgrammedPoint() {
        assertThat(run(strict(), "T1 M6", "G91 G41 G1 X5 F100", "X5", "Y-10").motionsFromLine(3))
                .containsExactly("A(5,0.5, 5,0, -1, 0)", "F(10,0.5,0)", "A(10.5,0, 10,0, -1, 0)", "F(10.5,-10,0)");
    }
}
