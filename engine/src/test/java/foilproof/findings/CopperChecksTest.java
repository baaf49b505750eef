package foilproof.findings;

import static foilproof.findings.Certainty.GEOMETRY;
import static foilproof.findings.Certainty.RULE_OF_THUMB;
import static foilproof.findings.Certainty.SET_UP;
import static foilproof.findings.Programs.END;
import static foilproof.findings.Programs.isolation;
import static foilproof.findings.Programs.line;
import static foilproof.findings.Programs.rectangle;
import static foilproof.findings.Programs.start;
import static foilproof.findings.Severity.FIX;
import static foilproof.findings.Severity.NOTE;
import static foilproof.findings.Severity.WATCH;

import org.junit.jupiter.api.Test;

/**
 * Checks of the copper that is left, judged at the foil bottom. The engraver at 0.1 mm below the foil top is
 * 0.12 + 2 x 0.1 x tan 15 deg = 0.1736 mm wide on top and 0.1643 mm at the bottom of half-ounce foil.
 */
class CopperChecksTest {
    private static final double BOTTOM_MM = 0.12 + 2 * (0.1 - 0.0174) * StrictMath.tan(Math.PI / 12);

    /** Two closed grooves, one round the other, that leave a ring of copper this wide at the foil bottom. */
    private static Bench ring(double baseMm) {
        double step = baseMm + BOTTOM_MM;
        return fine().runs(start(1)
                + rectangle(3, 3, 9, 8, -0.1)
                + rectangle(3 + step, 3 + step, 9 - step, 8 - step, -0.1)
                + END);
    }

    private static Bench fine() {
        return Bench.job().cellUm(10);
    }

    /** Two straight grooves side by side, so long, that leave a strip this wide at the foil bottom. */
    private static Bench strip(double baseMm, double lengthMm) {
        double step = baseMm + BOTTOM_MM;
        return fine().runs(start(1)
                + line(3, 5, 3 + lengthMm, 5, -0.1)
                + line(3, 5 + step, 3 + lengthMm, 5 + step, -0.1)
                + END);
    }

    // ---- hair, sliver

    @Test
    @Fires({"F1 hair", "F4 hair"})
    void shouldAskToMendAHairBetweenTwoGrooves() {
        strip(0.047, 8)
                .raises(Kinds.HAIR, FIX, GEOMETRY)
                .measuring(0.047, "mm", 0.002)
                .against(0.05)
                .onLineOf("X11.0 Y5.2")
                .with("engraver");
    }

    @Test
    @Silent({"F1 hair", "F2 hair", "F4 hair"})
    void shouldCallAStripOfMoreThanFiveHundredthsASliver() {
        strip(0.053, 8)
                .isSilentOn(Kinds.HAIR)
                .raises(Kinds.SLIVER, WATCH, RULE_OF_THUMB)
                .measuring(0.053, "mm", 0.002)
                .against(0.15)
                .saying("A sliver");
    }

    @Test
    @Fires({"F1 sliver", "F3 sliver"})
    void shouldWatchThinStripsUpToAQuarterOfAMillimetre() {
        strip(0.147, 8).raises(Kinds.SLIVER, WATCH, RULE_OF_THUMB).against(0.15).saying("A sliver");
        strip(0.153, 8).raises(Kinds.SLIVER, WATCH, RULE_OF_THUMB).against(0.25).saying("A thin strip");
        strip(0.247, 8)
                .raises(Kinds.SLIVER, WATCH, RULE_OF_THUMB)
                .measuring(0.247, "mm", 0.002)
                .against(0.25);
    }

    @Test
    @Silent({"F1 sliver", "F3 sliver"})
    void shouldNotMindAStripOfMoreThanAQuarterOfAMillimetre() {
        strip(0.253, 8).isSilentOn(Kinds.SLIVER).isSilentOn(Kinds.HAIR);
    }

    @Test
    @Silent({"F1 sliver", "F1 hair"})
    void shouldNotMindGroovesThatOverlapOrMeet() {
        strip(-0.02, 8).isSilentOn(Kinds.SLIVER).isSilentOn(Kinds.HAIR);
    }

    @Test
    @Silent({"F1 sliver", "F1 hair"})
    void shouldNotMindAStripOfLessThanHalfAMillimetre() {
        strip(0.03, 0.40).isSilentOn(Kinds.SLIVER).isSilentOn(Kinds.HAIR);
        strip(0.1, 0.35).isSilentOn(Kinds.SLIVER).isSilentOn(Kinds.HAIR);
    }

    /** 90 deg and 34.8 um of foil: the strip is 0.0696 mm wider at the foil bottom than on top. */
    private static Bench knife(double topMm) {
        double top = 0.12 + 2 * 0.1;
        return fine().blank("foil", "1 oz")
                .tool("engraver", "included_angle", "90 deg")
                .runs(start(1) + line(3, 5, 11, 5, -0.1) + line(3, 5 + top + topMm, 11, 5 + top + topMm, -0.1) + END);
    }

    @Test
    @Fires("F2 hair")
    void shouldTakeAKnifeEdgeForAHairThoughItsBaseIsWide() {
        knife(0.003).raises(Kinds.HAIR, FIX, GEOMETRY).saying("knife edge");
    }

    @Test
    @Silent("F2 hair")
    void shouldCallAStripWithATopASliver() {
        knife(0.007).isSilentOn(Kinds.HAIR).raises(Kinds.SLIVER, WATCH, RULE_OF_THUMB);
    }

    @Test
    @Silent("F8 sliver")
    void shouldNotMindASliverThatALaterMoveRemoves() {
        double step = 0.1 + BOTTOM_MM;
        fine().runs(start(1)
                        + line(3, 5, 11, 5, -0.1)
                        + line(3, 5 + step, 11, 5 + step, -0.1)
                        + line(3, 5 + step / 2, 11, 5 + step / 2, -0.1)
                        + END)
                .isSilentOn(Kinds.SLIVER)
                .isSilentOn(Kinds.HAIR);
    }

    @Test
    @Fires({"F4 sliver", "F8 sliver"})
    void shouldTellASliverThatIsStillThereAtTheEnd() {
        ring(0.1).raises(Kinds.SLIVER, WATCH, RULE_OF_THUMB).saying("nearest other copper");
    }

    @Test
    @Silent("F4 sliver")
    void shouldNotMindAWideRing() {
        ring(0.3).isSilentOn(Kinds.SLIVER).isSilentOn(Kinds.HAIR).isSilentOn(Kinds.THIN_TRACE);
    }

    // ---- thin-trace

    /** A closed groove round a trace this wide at the foil bottom. */
    private static Bench trace(double widthMm) {
        double w = widthMm + BOTTOM_MM;
        return fine().runs(start(1) + rectangle(3, 5, 13, 5 + w, -0.1) + END);
    }

    @Test
    @Fires({"E8 thin-trace", "F5 thin-trace"})
    void shouldWatchATraceBelowAQuarterAndMendOneBelowFifteenHundredths() {
        trace(0.247)
                .raises(Kinds.THIN_TRACE, WATCH, RULE_OF_THUMB)
                .measuring(0.247, "mm", 0.002)
                .against(0.25);
        trace(0.153).raises(Kinds.THIN_TRACE, WATCH, RULE_OF_THUMB).against(0.25);
        trace(0.147)
                .raises(Kinds.THIN_TRACE, FIX, GEOMETRY)
                .measuring(0.147, "mm", 0.002)
                .against(0.15);
    }

    @Test
    @Silent({"E8 thin-trace", "F5 thin-trace"})
    void shouldNotMindATraceOfTenThou() {
        trace(0.254).isSilentOn(Kinds.THIN_TRACE).isSilentOn(Kinds.SLIVER);
        trace(0.2502).isSilentOn(Kinds.THIN_TRACE);
    }

    // ---- narrow-gap

    /** A closed groove this wide at the foil bottom. */
    private static Bench gap(double widthMm) {
        double tip = widthMm - (BOTTOM_MM - 0.12);
        return fine().tool("engraver", "tip_width", Programs.text("%s mm", tip)).runs(isolation());
    }

    @Test
    @Fires("E3 narrow-gap")
    void shouldWatchAGapBelowFifteenHundredthsAndMendOneBelowATenth() {
        gap(0.148)
                .raises(Kinds.NARROW_GAP, WATCH, GEOMETRY)
                .measuring(0.148, "mm", 0.0015)
                .against(0.15);
        gap(0.102).raises(Kinds.NARROW_GAP, WATCH, GEOMETRY).against(0.15);
        gap(0.098)
                .raises(Kinds.NARROW_GAP, FIX, GEOMETRY)
                .measuring(0.098, "mm", 0.0015)
                .against(0.10);
    }

    @Test
    @Silent("E3 narrow-gap")
    void shouldNotMindAGapOfFifteenHundredthsNorANarrowGrooveWithinOnePiece() {
        gap(0.152).isSilentOn(Kinds.NARROW_GAP);
        fine().tool("engraver", "tip_width", "0.05 mm")
                .runs(start(1) + line(3, 5, 11, 5, -0.1) + END)
                .isSilentOn(Kinds.NARROW_GAP);
    }

    // ---- stray-copper

    /** A square piece of this area at the foil bottom, alone within a larger one. */
    private static Bench square(double areaMm2) {
        double side = StrictMath.sqrt(areaMm2) + BOTTOM_MM;
        return fine().runs(start(1) + rectangle(8, 7, 8 + side, 7 + side, -0.1) + END);
    }

    @Test
    @Fires("E6 stray-copper")
    void shouldWatchAPieceBelowHalfASquareMillimetre() {
        square(0.492)
                .raises(Kinds.STRAY_COPPER, WATCH, GEOMETRY)
                .at(8.4, 7.4)
                .measuring(0.492, "mm2", 0.004)
                .against(0.5);
    }

    @Test
    @Silent("E6 stray-copper")
    void shouldOnlyNoteLargePiecesAndOnlyOnce() {
        Verdicts v = square(0.508).examined().raisesNothingAbove(NOTE, Kinds.STRAY_COPPER);
        v.raises(Kinds.STRAY_COPPER, NOTE, GEOMETRY).measuring(2, "pieces", 0.1);
        fine().runs(start(1) + line(3, 5, 11, 5, -0.1) + END).isSilentOn(Kinds.STRAY_COPPER);
    }

    // ---- tip-unknown

    private static Bench unknownTip(double z) {
        return fine().toolWithout("engraver", "tip_width")
                .tool("engraver", "tip_width", "unknown")
                .runs(start(1) + rectangle(3, 3, 13, 11, z) + END);
    }

    /** As a flat tip of 0.10 mm the groove is 0.1443 mm wide at the foil bottom, as a round one wider than 0.2 mm. */
    @Test
    @Fires("C1 tip-unknown")
    void shouldWatchAnUnknownTipWhereTheReadingsDiffer() {
        unknownTip(-0.1)
                .raises(Kinds.TIP_UNKNOWN, WATCH, SET_UP)
                .with("engraver")
                .saying("0.154 mm")
                .saying("0.248 mm");
    }

    @Test
    @Fires("C1 tip-unknown")
    void shouldOnlyNoteAnUnknownTipWhereBothReadingsAgree() {
        unknownTip(-0.115).raises(Kinds.TIP_UNKNOWN, NOTE, SET_UP);
    }

    @Test
    @Silent("C1 tip-unknown")
    void shouldNotMindAKnownTip() {
        fine().runs(isolation()).isSilentOn(Kinds.TIP_UNKNOWN);
        // an unknown tip that cuts nothing is not asked for
        fine().tool("pencil", "tip_width", "unknown").runs(isolation()).isSilentOn(Kinds.TIP_UNKNOWN);
    }
}
