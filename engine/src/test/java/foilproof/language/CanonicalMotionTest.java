package foilproof.language;

import static foilproof.language.Listing.common;
import static foilproof.language.Listing.run;
import static foilproof.language.Listing.strict;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Text to canonical motion: rows C02 to C48 and K1 to K18 of the check values; sections are of NISTIR 6556. */
class CanonicalMotionTest {
    private static int lastMotion(CanonicalProgram c) {
        int last = -1;
        for (int i = 0; i < c.size(); i++) {
            last = c.isMotion(i) ? i : last;
        }
        return last;
    }

    private static int motion(CanonicalProgram c, int which) {
        int seen = -1;
        for (int i = 0; i < c.size(); i++) {
            if (c.isMotion(i) && ++seen == which) {
                return i;
            }
        }
        throw new AssertionError("no motion " + which);
    }

    private static void refused(String code, String... lines) {
        assertThat(run(strict(), lines).errorCodes())
                .as(String.join(" | ", lines))
                .containsExactly(code);
    }

    @Test // C02, C03, C04, C05, C07: table 10
    void shouldListTheSessionOfTable10() {
        Listing session = run(
                strict(),
                "g1 x3 y1 f20.0",
                "g2 x[6-[4*3/2]] r 7.01 z0.5",
                "t2",
                "m6 g43 h2",
                "m2",
                "g1 x asin[0.5]",
                "g91 g81 x3 y2 z-0.8 r1.5 l2");
        assertThat(session.errorCodes()).isEmpty();
        assertThat(session.commandsFromLine(1).subList(0, 3))
                .containsExactly("SET_FEED(20)", "F(3,1,0)", "A(0,1, 1.5,7.8476, -1, 0.5)");
        assertThat(session.commandsFromLine(4).subList(0, 2)).containsExactly("CHANGE_TOOL(2)", "LENGTH_OFFSET(1)");
        assertThat(session.commandsFromLine(5).subList(0, 4))
                .as("origin (0,0,0) beside the length offset of 1, which survives M2")
                .containsExactly("SET_ORIGIN(0,0,1)", "SPINDLE_STOP", "COOLANT_OFF", "PROGRAM_END");
        assertThat(session.motionsFromLine(6))
                .containsExactly(
                        "F(30,1,-0.5)",
                        "T(30,1,1)",
                        "T(33,3,1)",
                        "F(33,3,0.2)",
                        "T(33,3,1)",
                        "T(36,5,1)",
                        "F(36,5,0.2)",
                        "T(36,5,1)");
        assertThat(session.interpretation().stateAtLine(5).lengthOffsetMm()).isEqualTo(1);
        assertThat(session.interpretation().stateAtLine(5).motionTenths()).isEqualTo(10);
    }

    @Test // C08, C09: section 3.5.16.2 examples 1 and 2; C10: section 3.5.20
    void shouldDrillAsTheExamplesOfG81() {
        String start = "G0 X1 Y2 Z3 F100";
        assertThat(run(strict(), start, "G90 G81 G98 X4 Y5 Z1.5 R2.8").motionsFromLine(2))
                .containsExactly("T(4,5,3)", "T(4,5,2.8)", "F(4,5,1.5)", "T(4,5,3)");
        assertThat(run(strict(), start, "G91 G81 G98 X4 Y5 Z-0.6 R1.8 L3").motionsFromLine(2))
                .containsExactly(
                        "T(1,2,4.8)",
                        "T(5,7,4.8)",
                        "F(5,7,4.2)",
                        "T(5,7,4.8)",
                        "T(9,12,4.8)",
                        "F(9,12,4.2)",
                        "T(9,12,4.8)",
                        "T(13,17,4.8)",
                        "F(13,17,4.2)",
                        "T(13,17,4.8)");
        assertThat(run(strict(), start, "G90 G81 G99 X4 Y5 Z1.5 R2.8").motionsFromLine(2))
                .containsExactly("T(4,5,3)", "T(4,5,2.8)", "F(4,5,1.5)", "T(4,5,2.8)");
    }

    @Test // C20: section 3.5.3.2; sweep and length by closed form
    void shouldRunTheCentreFormOfTheReport() {
        Listing arc = run(strict(), "G0 X7 Y7 Z9 F100", "G17 G2 x10 y16 i3 j4 z9");
        assertThat(arc.motionsFromLine(2)).containsExactly("A(10,16, 10,11, -1, 9)");
        CanonicalProgram c = arc.commands();
        int i = lastMotion(c);
        assertThat(Math.toDegrees(c.sweepRad(i))).isCloseTo(-143.1301, within(5e-5));
        assertThat(5 * -c.sweepRad(i)).isCloseTo(12.49046, within(5e-6));
    }

    @Test // C21, C22: section 3.5.3.1; centres by an independent route
    void shouldRunTheRadiusFormOfTheReport() {
        CanonicalProgram shortWay =
                run(strict(), "G0 Z5 F100", "G17 G2 x10 y15 r20 z5").commands();
        int i = lastMotion(shortWay);
        assertThat(shortWay.programCentreFirst(i)).isCloseTo(19.85507, within(5e-6));
        assertThat(shortWay.programCentreSecond(i)).isCloseTo(-2.40338, within(5e-6));
        assertThat(Math.toDegrees(-shortWay.sweepRad(i))).isCloseTo(53.57643, within(5e-6));
        assertThat(-20 * shortWay.sweepRad(i)).isCloseTo(18.70170, within(5e-6));
        CanonicalProgram longWay =
                run(strict(), "G0 Z5 F100", "G17 G2 x10 y15 r-20 z5").commands();
        i = lastMotion(longWay);
        assertThat(longWay.programCentreFirst(i)).isCloseTo(-9.85507, within(5e-6));
        assertThat(longWay.programCentreSecond(i)).isCloseTo(17.40338, within(5e-6));
        assertThat(Math.toDegrees(-longWay.sweepRad(i))).isCloseTo(306.42357, within(5e-6));
    }

    @Test // C23: appendix C.1; C24: section 3.5.3.2
    void shouldRunFullCircles() {
        String start = "G0 X32.5 Y0 Z-0.5 F100";
        Listing circle = run(strict(), start, "g2 x32.5 j2.5");
        assertThat(circle.motionsFromLine(2)).containsExactly("A(32.5,0, 32.5,2.5, -1, -0.5)");
        assertThat(-2.5 * circle.commands().sweepRad(lastMotion(circle.commands())))
                .isCloseTo(15.70796, within(5e-6));
        assertThat(circle.interpretation().notes(NoteKind.FULL_CIRCLE)).hasSize(1);
        refused("arc-end", start, "g2 j2.5");
        assertThat(run(common(), start, "g2 j2.5").motionsFromLine(2)).containsExactly("A(32.5,0, 32.5,2.5, -1, -0.5)");
    }

    @Test // C25: section 3.5.3.1; chord above twice the radius from memory
    void shouldRefuseRadiusFormsThatAreNoArc() {
        refused("arc-radius", "F100", "G2 X0 Y0 R5");
        refused("arc-radius", "F100", "G2 X10 Y0 R4.9");
        refused("arc-end", "F100", "G2 Z1 R5");
        refused("arc-centre", "F100", "G2 X10");
        refused("arc-form", "F100", "G2 X10 R5 I5");
    }

    @Test // C26, C27: section 3.5.3.2
    void shouldLimitTheDifferenceOfRadiiByTheUnits() {
        assertThat(run(strict(), "F100", "G2 X10.0015 Y0 I5").errorCodes()).isEmpty();
        refused("arc-radii", "F100", "G2 X10.003 Y0 I5");
        assertThat(run(strict(), "F100 G20", "G2 X1.0001 Y0 I0.5").errorCodes()).isEmpty();
        refused("arc-radii", "F100 G20", "G2 X1.0003 Y0 I0.5");
    }

    @Test // the job's contract: the larger of 0.005 mm and 0.1 % of the radius
    void shouldAllowTheCommonLanguageMoreDifferenceOfRadii() {
        assertThat(run(common(), "F100", "G2 X2.0049 Y0 I1").errorCodes()).isEmpty();
        assertThat(run(common(), "F100", "G2 X2.0051 Y0 I1").errorCodes()).containsExactly("arc-radii");
        assertThat(run(common(), "F100", "G2 X40.019 Y0 I20").errorCodes()).isEmpty();
        assertThat(run(common(), "F100", "G2 X40.021 Y0 I20").errorCodes()).containsExactly("arc-radii");
        LanguageNote note = run(common(), "F100", "G2 X2.004 Y0 I1")
                .interpretation()
                .notes(NoteKind.ARC_RADIUS_ERROR)
                .get(0);
        assertThat(note.value()).isCloseTo(0.004, within(1e-9));
        assertThat(note.span().line()).isEqualTo(2);
    }

    @Test // C28, C29: section 4.3.6.1
    void shouldOrderTheAxesOfEachPlane() {
        Listing zx = run(strict(), "F100", "G18 G3 X10 Z10 I10 K0");
        assertThat(zx.motionsFromLine(2)).containsExactly("A(10,10, 0,10, 1, 0)");
        assertThat(zx.commands().sweepRad(lastMotion(zx.commands()))).isCloseTo(Math.PI / 2, within(1e-12));
        Listing yz = run(strict(), "F100", "G19 G2 Y10 Z10 J10 K0");
        assertThat(yz.motionsFromLine(2)).containsExactly("A(10,10, 10,0, -1, 0)");
        assertThat(yz.commands().sweepRad(lastMotion(yz.commands()))).isCloseTo(-Math.PI / 2, within(1e-12));
        refused("arc-plane", "F100", "G18 G3 X10 Z10 I10 J0");
    }

    @Test // C30: section 2.1.2.6
    void shouldRunHelices() {
        CanonicalProgram c = run(strict(), "F100", "G3 X0 Y0 Z-1 I5").commands();
        int i = lastMotion(c);
        double lengthMm = Math.hypot(5 * c.sweepRad(i), c.endMm(i, 2) - c.startMm(i, 2));
        assertThat(lengthMm).isCloseTo(31.43184, within(5e-6));
        assertThat(60 * lengthMm / c.feedMmPerMin(i)).isCloseTo(18.8591, within(5e-5));
    }

    @Test // C31: section 3.5.18
    void shouldKeepG92OffsetsAsTheReport() {
        Listing all = run(
                strict(),
                "G0 X4",
                "G92 x7",
                "#1=#5211",
                "G92 x9",
                "#2=#5211",
                "G91 G0 X0",
                "G90",
                "G92.2",
                "G91 G0 X0",
                "G90",
                "#3=#5211",
                "G92.3",
                "G91 G0 X0",
                "G90",
                "G92.1",
                "G91 G0 X0",
                "G90",
                "#4=#5211",
                "G0 X#1 Y#2 Z#3",
                "X#4");
        assertThat(all.errorCodes()).isEmpty();
        assertThat(all.motionsFromLine(2))
                .containsExactly("T(9,0,0)", "T(4,0,0)", "T(9,0,0)", "T(4,0,0)", "T(-3,-5,-5)", "T(0,-5,-5)");
        CanonicalProgram c = all.commands();
        assertThat(c.endMm(motion(c, 1), 0)).as("no offset ever moved the axes").isEqualTo(4);
        assertThat(c.endMm(motion(c, 4), 0)).isEqualTo(4);
        refused("axis-missing", "G92");
    }

    @Test // C32, C33: section 3.5.5
    void shouldSetOriginsWithoutMotion() {
        Listing l =
                run(strict(), "G0 X10 Y20", "G10 L2 P1 x3.5 y17.2", "#1=#5221 #2=#5222", "G91 G0 Z0", "G90 X#1 Y#2");
        assertThat(l.motionsFromLine(2)).containsExactly("T(6.5,2.8,0)", "T(3.5,17.2,0)");
        refused("g10", "G10 L2 P0 X1");
        refused("g10", "G10 L2 P1.5 X1");
        refused("g10", "G10 L2 P10 X1");
        assertThat(run(common(), "G0 X10 Y20", "G10 L20 P1 X1 Y2", "G91 G0 Z0").motionsFromLine(2))
                .containsExactly("T(1,2,0)");
        assertThat(run(common(), "G0 X10 Y20", "G10 L20 P2 X1 Y2", "G91 G0 Z0", "G90 G55 G0 Z0")
                        .motionsFromLine(2))
                .containsExactly("T(10,20,0)", "T(1,2,0)");
    }

    @Test // K7: section 3.5.5; readings by arithmetic
    void shouldSetOnlyTheOriginsOfTheAxesThatG10NamesAndKeepTheG92Offset() {
        Listing l = run(
                strict(),
                "G0 X0 Y0 Z0",
                "G92 X5",
                "G10 L2 P1 Y3",
                "G91 G0 Z0",
                "G90 G10 L2 P1 X2",
                "G91 G0 Z0",
                "G90 G10 L2 P3 X9",
                "G91 G0 Z0");
        assertThat(l.errorCodes()).isEmpty();
        assertThat(l.motionsFromLine(2)).containsExactly("T(5,-3,0)", "T(3,-3,0)", "T(3,-3,0)");
        refused("g10", "G10 L2 P-1 X1");
        refused("g10", "G10 L2 X1");
    }

    @Test // K8: section 3.5.8, appendix B.5
    void shouldRefuseHomeMovesWhileCompensationIsOn() {
        refused("comp-origin", "F1", "G41 D1 G1 X5", "G28 X1");
        refused("comp-origin", "F1", "G41 D1 G1 X5", "G30 X1");
        assertThat(run(strict(), "G0 X5 Y5 Z5", "G30 Z10").motionsFromLine(2)).containsExactly("T(5,5,10)", "T(0,0,0)");
    }

    @Test // K15: section 3.5.18: incremental distance mode has no effect on G92; appendix B.5 for compensation
    void shouldSetOffsetsAlikeInBothDistanceModes() {
        assertThat(run(strict(), "G0 X4", "G91 G92 X5", "G0 Z0").motionsFromLine(2))
                .containsExactly("T(5,0,0)");
        assertThat(run(strict(), "G0 X4", "G90 G92 X5", "G0 Z0").motionsFromLine(2))
                .containsExactly("T(5,0,0)");
        refused("comp-origin", "F1", "G41 D1 G1 X5", "G92 X1");
    }

    @Test // C34: section 3.5.12
    void shouldMoveInMachineCoordinates() {
        Listing l = run(strict().origin(1, 10, 0, 0), "G0 X0", "G0 G53 X0");
        assertThat(l.motionsFromLine(2)).containsExactly("T(-10,0,0)");
        CanonicalProgram c = l.commands();
        assertThat(c.endMm(lastMotion(c), 0)).isZero();
        assertThat(c.flags(lastMotion(c)) & CanonicalProgram.MACHINE_COORDINATES)
                .isNotZero();
        refused("g53", "F1", "G3 G53 X0 I1");
        refused("g53", "G53");
    }

    @Test // K12 without known machine positions: the design's rule that unknown is said
    void shouldFlagEndsThatNobodyKnows() {
        Listing l = run(common().machineKnown(false), "G21 G90 G0 X1 Y1 Z5", "G53 G0 Z0", "X2", "Z5");
        CanonicalProgram c = l.commands();
        assertThat(l.interpretation().notes(NoteKind.MACHINE_POSITION_UNKNOWN)).hasSize(1);
        int last = lastMotion(c);
        int unknown = CanonicalProgram.END_X_UNKNOWN | CanonicalProgram.END_Y_UNKNOWN | CanonicalProgram.END_Z_UNKNOWN;
        assertThat(c.flags(last) & unknown).isZero();
        assertThat(c.flags(last - 1) & unknown).isEqualTo(CanonicalProgram.END_Z_UNKNOWN);
        assertThat(c.flags(last - 2) & unknown).isEqualTo(CanonicalProgram.END_Z_UNKNOWN);
        assertThat(c.flags(last - 3) & unknown).isZero();
    }

    @Test // C35: section 3.5.8; the common language moves only the axes that are named (the job's contract)
    void shouldGoHomeByWayOfThePoint() {
        assertThat(run(strict(), "G0 X5 Y5 Z5", "G28 Z10").motionsFromLine(2)).containsExactly("T(5,5,10)", "T(0,0,0)");
        assertThat(run(strict(), "G0 X5 Y5 Z5", "G28").motionsFromLine(2)).containsExactly("T(0,0,0)");
        assertThat(run(common(), "G0 X5 Y5 Z5", "G28 Z10").motionsFromLine(2)).containsExactly("T(5,5,10)", "T(5,5,0)");
        assertThat(run(common(), "G0 X5 Y5 Z5", "G91 G28 Z0", "G90 G30").motionsFromLine(2))
                .containsExactly("T(5,5,5)", "T(5,5,0)", "T(0,0,0)");
        assertThat(run(common().homesUnknown(), "G0 X1", "G28 Z1")
                        .interpretation()
                        .notes(NoteKind.HOME_UNKNOWN))
                .hasSize(1);
    }

    @Test // C36, K14: section 3.5.15
    void shouldRefuseAxisWordsWhileNoMotionIsInForce() {
        refused("no-motion-mode", "G80", "X1");
        refused("no-motion-mode", "G80 X1");
        assertThat(run(strict(), "G80", "G92 X1").errorCodes()).isEmpty();
        assertThat(run(strict(), "G80 G92 X1").errorCodes()).isEmpty();
        refused("axis-words-twice", "G0 G92 X1");
        refused("axis-words-twice", "G0 G28 X1");
    }

    @Test // C37: section 3.5.19; K16
    void shouldCountFeedAsTimeInInverseTimeMode() {
        Listing l = run(strict(), "G93 G1 X10 F2", "X20");
        assertThat(l.errorCodes()).containsExactly("inverse-time-feed");
        CanonicalProgram c = l.commands();
        assertThat(c.moveS(lastMotion(c))).isEqualTo(30);
        assertThat(c.feedMmPerMin(lastMotion(c))).isNaN();
        refused("cycle-inverse-time", "G93", "G81 X1 Y1 Z-1 R1 F1");
        refused("probe-inverse-time", "G93", "G38.2 Z-1 F1");
        assertThat(run(strict(), "G93 G0 X10").errorCodes()).isEmpty();
    }

    @Test // C38: table 8
    void shouldRunALineInTheOrderOfTable8() {
        assertThat(run(strict(), "T1 M6", "G1 X5 G4 P1 T2 M6 M3 S8000 F100").commandsFromLine(2))
                .containsExactly(
                        "SET_FEED(100)",
                        "SET_SPEED(8000)",
                        "SELECT_TOOL(2)",
                        "CHANGE_TOOL(2)",
                        "SPINDLE_CLOCKWISE",
                        "DWELL(1)",
                        "F(5,0,0)");
        assertThat(run(strict(), "M0 G1 G98 G90 G61 G55 G49 G40 G21 G17 M48 M8 F1 X1 (note) G94 ")
                        .commandsFromLine(1))
                .containsExactly(
                        "COMMENT(note)",
                        "SET_FEED_MODE(0)",
                        "SET_FEED(1)",
                        "FLOOD_ON",
                        "OVERRIDES(1)",
                        "SELECT_PLANE(0)",
                        "USE_UNITS(0)",
                        "LENGTH_OFFSET(0)",
                        "SET_ORIGIN(0,0,0)",
                        "SET_ORIGIN(0,0,0)",
                        "SET_PATH_MODE(1)",
                        "F(1,0,0)",
                        "PROGRAM_STOP");
    }

    @Test // C41: section 3.5.9; K9
    void shouldProbe() {
        refused("probe-short", "G0 Z5 F50", "G38.2 Z4.9");
        ProbeSurface plane = (x0, y0, z0, x1, y1, z1, tool) -> z0 >= 1 && z1 <= 1
                ? java.util.OptionalDouble.of((z0 - 1) / (z0 - z1))
                : java.util.OptionalDouble.empty();
        Listing l = run(strict().probeSurface(plane), "G0 Z5 F50", "G91 G38.2 Z-10 F50", "G90 G0 X#5061 Y#5062 Z#5063");
        assertThat(l.motionsFromLine(2)).containsExactly("P(0,0,1)", "T(0,0,1)");
        assertThat(run(strict(), "G0 Z5 F50", "G91 G38.2 Z-10 F50").errorCodes())
                .containsExactly("probe-not-tripped");
        Listing missed = run(common(), "G0 Z5 F50", "G91 G38.2 Z-10 F50");
        assertThat(missed.motionsFromLine(2)).containsExactly("P(0,0,-5)");
        assertThat(missed.interpretation().notes(NoteKind.PROBE_NOT_TRIPPED)).hasSize(1);
        refused("probe-spindle", "G0 Z5 F50 S1 M3", "G38.2 Z-10 F50");
        refused("axis-missing", "G38.2 F50");
        assertThat(run(strict().probeSurface(plane), "#1=#5063 G0 Z5 F50", "G38.2 Z-10 #2=#5063", "G0 X#2 Y#5063")
                        .motionsFromLine(3))
                .as("expressions are evaluated before the line runs, section 3.3.2.3 (L11)")
                .containsExactly("T(0,1,1)");
    }

    @Test // C42: section 2.1.2.10; A3 origins stay where they are, section 4.3.3.2
    void shouldReadThePositionInTheUnitsInForce() {
        Listing l = run(strict().origin(1, 50.8, 0, 0), "G0 X25.4", "G20", "G91 G0 X0", "G90 X#5221");
        assertThat(l.motionsFromLine(2)).containsExactly("T(1,0,0)", "T(2,0,0)");
        assertThat(l.commands().endMm(lastMotion(l.commands()), 0)).isCloseTo(101.6, within(1e-9));
        assertThat(l.interpretation().notes(NoteKind.UNITS_CHANGED)).hasSize(1);
    }

    @Test // A3: the F number across a change of units, decided both ways
    void shouldKeepTheFeedNumberOrTheSpeedWhenUnitsChange() {
        CanonicalProgram strict = run(strict(), "F100 G0 X1", "G20", "G1 X2").commands();
        assertThat(strict.feedMmPerMin(lastMotion(strict))).isEqualTo(2540);
        CanonicalProgram common = run(common(), "F100 G0 X1", "G20", "G1 X2").commands();
        assertThat(common.feedMmPerMin(lastMotion(common))).isEqualTo(100);
        CanonicalProgram sameLine = run(common(), "G20 F10 G1 X2").commands();
        assertThat(sameLine.feedMmPerMin(lastMotion(sameLine))).isEqualTo(254);
    }

    @Test // C43: appendix B, tables 12 and 13: the compensated path has the points of the program that needs none
    void shouldFindThePathOfTable13FromTheProgramOfTable12() {
        Listing l = run(
                strict(),
                "T1 M6",
                "G0 X1 Y5 F100",
                "G41 G1 Y4",
                "G3 X2 Y3 I1",
                "G2 X3 Y2 J-1",
                "G1 Y-1",
                "G2 X2 Y-2 I-1",
                "G1 X-2",
                "G2 X-2.6 Y-0.2 J1",
                "G1 X1.4 Y2.8",
                "G2 X2 Y3 I0.6 J-0.8",
                "G40");
        assertThat(l.errorCodes()).isEmpty();
        assertThat(l.motionsFromLine(3))
                .containsExactly(
                        "F(1.433,4.25,0)",
                        "A(1.5,4, 1,4, -1, 0)",
                        "A(2,3.5, 2,4, 1, 0)",
                        "A(3.5,2, 2,2, -1, 0)",
                        "F(3.5,-1,0)",
                        "A(2,-2.5, 2,-1, -1, 0)",
                        "F(-2,-2.5,0)",
                        "A(-2.9,0.2, -2,-1, -1, 0)",
                        "F(1.1,3.2,0)",
                        "A(2,3.5, 2,2, -1, 0)");
    }

    @Test // K10: section 3.5.10, appendix B.5
    void shouldRefuseWhatCompensationCannotDo() {
        String on = "G41 D1 G1 X5";
        refused("comp-twice", "F1", on, "G42");
        refused("comp-plane", "F1", on, "G18");
        refused("comp-plane", "F1 G18", "G41");
        refused("comp-units", "F1", on, "G20");
        refused("comp-origin", "F1", on, "G55");
        refused("comp-origin", "F1", on, "G92 X1");
        refused("comp-origin", "F1", on, "G28");
        refused("comp-origin", "F1", on, "G0 G53 X1");
        refused("probe-comp", "F1", on, "G38.2 X10");
        refused("cycle-comp", "F1", on, "G81 X1 Z-1 R1");
        refused("comp-gouge", "F1", "G41 D1 G1 X0.4");
        refused("comp-corner", "F1", on, "X10", "Y10");
        refused("comp-arc", "F1", on, "X10", "G3 X10.4 Y0.4 J0.4");
        refused("tool-number", "F1", "G41 D-1 G1 X5");
        refused("tool-number", "F1", "G41 D69 G1 X5");
        refused("word-unused", "D1");
        assertThat(run(strict(), "F1 G41 D0 G1 X5", "X10", "Y10").motions())
                .as("D0 is radius 0")
                .containsExactly("F(5,0,0)", "F(10,0,0)", "F(10,10,0)");
        assertThat(run(strict(), "F1 G42 D1 G1 X5", "Y10").motions())
                .as("the left turn is an outside corner on the right")
                .hasSize(3);
        Listing outside = run(strict(), "F1 G41 D1 G1 X5", "X10", "Y-10", "G40", "X20");
        assertThat(outside.motionsFromLine(2))
                .containsExactly(
                        "A(5,0.5, 5,0, -1, 0)",
                        "F(10,0.5,0)",
                        "A(10.5,0, 10,0, -1, 0)",
                        "F(10.5,-10,0)",
                        "F(20,-10,0)");
        assertThat(run(strict(), "F1 G42 D10 G1 X5", "X10").motionsFromLine(2))
                .as("a negative radius changes sides: tool 10 of the report's table")
                .containsExactly("A(5,0.15, 5,0, -1, 0)", "F(10,0.15,0)");
    }

    @Test // K11: section 3.5.11
    void shouldUseLengthOffsets() {
        Listing l = run(strict(), "G43 H1 G0 Z10", "G49 G0 X0", "G43 H0 X1");
        assertThat(l.motions()).containsExactly("T(0,0,10)", "T(0,0,12)", "T(1,0,12)");
        assertThat(l.commands().endMm(lastMotion(l.commands()), 2)).isEqualTo(12);
        refused("tool-number", "G43 H1.5");
        refused("tool-number", "G43 H-1");
        refused("tool-number", "G43 H69");
        refused("length-number", "G43");
        assertThat(run(strict(), "G43 H3").interpretation().notes(NoteKind.LENGTH_OFFSET_UNKNOWN))
                .hasSize(1);
        assertThat(run(common(), "G43.1 Z5", "G0 X1").motions()).containsExactly("T(1,0,-5)");
    }

    @Test // K13: section 3.5.13
    void shouldUseNineSystems() {
        String[] codes = {"G54", "G55", "G56", "G57", "G58", "G59", "G59.1", "G59.2", "G59.3"};
        for (int system = 1; system <= 9; system++) {
            Listing l = run(strict().origin(system, 7, 0, 0), codes[system - 1] + " G0 X1");
            assertThat(l.commands().endMm(lastMotion(l.commands()), 0))
                    .as(codes[system - 1])
                    .isEqualTo(8);
            assertThat(l.interpretation().stateAtLine(1).system()).isEqualTo(system);
        }
    }

    @Test // K1, K6, K17: sections 3.5.1, 3.5.4, 3.7
    void shouldRefuseMissingAndNegativeWords() {
        refused("axis-missing", "G0");
        refused("axis-missing", "G1 F10");
        assertThat(run(common(), "G1 F10", "X1").motions()).containsExactly("F(1,0,0)");
        refused("dwell", "G4");
        refused("dwell", "G4 P-1");
        refused("speed-negative", "S-1");
        refused("feed-negative", "F-1");
        assertThat(run(strict(), "S0 M3").errorCodes()).isEmpty();
    }

    @Test // M2 and M30: section 3.6.1
    void shouldPutBackWhatTheProgramEndPutsBack() {
        Listing l = run(strict(), "G92 X5", "G55 G18 G91 G93 M49 M3 M8 G20", "G42 D0 G17", "M30");
        ModalState end = l.interpretation().stateAtLine(4);
        assertThat(end.g92()).isFalse();
        assertThat(end.system()).isEqualTo(1);
        assertThat(end.plane()).isEqualTo(Plane.XY);
        assertThat(end.incremental()).isFalse();
        assertThat(end.feedMode()).isEqualTo(FeedMode.UNITS_PER_MINUTE);
        assertThat(end.overrides()).isTrue();
        assertThat(end.comp()).isEqualTo(CutterComp.OFF);
        assertThat(end.spindle()).isEqualTo(SpindleTurn.STOPPED);
        assertThat(end.motionTenths()).isEqualTo(10);
        assertThat(end.flood()).isFalse();
        assertThat(end.units()).as("units are not in the list").isEqualTo(LengthUnits.INCH);
    }

    @Test // A2: decided as a finding
    void shouldNoteFeedsThatAreMissing() {
        assertThat(run(strict(), "G1 X1", "X2").interpretation().notes(NoteKind.FEED_UNSET))
                .hasSize(1);
        assertThat(run(strict(), "F0 G1 X1", "F5 X2", "F0 X3").interpretation().notes(NoteKind.FEED_UNSET))
                .hasSize(2);
        assertThat(run(strict(), "G0 X1", "F5 G1 X2").interpretation().notes(NoteKind.FEED_UNSET))
                .isEmpty();
    }

    @Test // design section 4: units and distance mode that nobody stated
    void shouldNoteWhatTheFirstMoveReliesOn() {
        Interpretation bare =
                run(common().initialUnits(LengthUnits.UNKNOWN), "(a)", "G0 X1").interpretation();
        assertThat(bare.notes(NoteKind.UNITS_UNSET))
                .singleElement()
                .satisfies(n -> assertThat(n.span().line()).isEqualTo(2));
        assertThat(bare.notes(NoteKind.DISTANCE_UNSET)).hasSize(1);
        assertThat(bare.notes(NoteKind.SYSTEM_UNSET)).hasSize(1);
        assertThat(bare.notes(NoteKind.STATE_CARRIED_OVER)).hasSize(4);
        Interpretation safe = run(
                        common().initialUnits(LengthUnits.UNKNOWN),
                        "G21 G90 G91.1 G94 G17 G40 G49 G80 G54 G61",
                        "G0 X1")
                .interpretation();
        assertThat(safe.errors()).isEmpty();
        assertThat(safe.notes().stream().map(LanguageNote::kind))
                .containsExactlyElementsOf(List.of(NoteKind.SYSTEM, NoteKind.ENDED_AT_Z, NoteKind.PROGRAM_END_MISSING));
    }
}
