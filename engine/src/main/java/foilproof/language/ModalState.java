package foilproof.language;

import org.jspecify.annotations.Nullable;

/**
 * What is in force after a line has run.
 *
 * @param motionTenths the motion mode, ten times its G number: 0 (G0), 10 (G1), 20, 30, 382 (G38.2), 800 (G80), 810 ...;
 *     the language starts in G80's company of no motion: see {@link InterpreterSetup}
 * @param units length units
 * @param incremental G91
 * @param arcCentresAbsolute G90.1 (common language only)
 * @param plane plane of arcs and cycles
 * @param feedMode what F counts
 * @param feedMmPerMin feed in force, millimetres a minute; NaN where none was given; in inverse time mode the last one
 * @param spindle which way the spindle turns
 * @param speedRpm speed in force, NaN where none was given
 * @param toolInSpindle number, 0 for none, -1 where not known
 * @param selectedTool number of the last T word, -1 where there was none
 * @param system work coordinate system in force, 1 to 9 (G54 is 1)
 * @param comp cutter radius compensation
 * @param compNumber its D number, -1 where none
 * @param lengthOffsetMm tool length offset in force, millimetres
 * @param lengthNumber its H number, 0 where none, -1 for G43.1
 * @param pathMode how corners are taken
 * @param pathToleranceMm P of G64, millimetres, NaN where none
 * @param retractToOldZ G98; false is G99
 * @param mist M7 in force
 * @param flood M8 in force
 * @param overrides M48 in force
 * @param g92 whether an offset of the G92 family is in force
 */
public record ModalState(
        int motionTenths,
        LengthUnits units,
        boolean incremental,
        boolean arcCentresAbsolute,
        Plane plane,
        FeedMode feedMode,
        double feedMmPerMin,
        SpindleTurn spindle,
        double speedRpm,
        int toolInSpindle,
        int selectedTool,
        int system,
        CutterComp comp,
        int compNumber,
        double lengthOffsetMm,
        int lengthNumber,
        PathMode pathMode,
        double pathToleranceMm,
        boolean retractToOldZ,
        boolean mist,
        boolean flood,
        boolean overrides,
        boolean g92) {
    // Written out: the equality that records come with is made at run time, which costs more than reading a program.
    @Override
    public boolean equals(@Nullable Object other) {
        return this == other
                || other instanceof ModalState o
                        && motionTenths == o.motionTenths
                        && units == o.units
                        && incremental == o.incremental
                        && arcCentresAbsolute == o.arcCentresAbsolute
                        && plane == o.plane
                        && feedMode == o.feedMode
                        && Double.compare(feedMmPerMin, o.feedMmPerMin) == 0
                        && spindle == o.spindle
                        && Double.compare(speedRpm, o.speedRpm) == 0
                        && toolInSpindle == o.toolInSpindle
                        && selectedTool == o.selectedTool
                        && system == o.system
                        && comp == o.comp
                        && compNumber == o.compNumber
                        && Double.compare(lengthOffsetMm, o.lengthOffsetMm) == 0
                        && lengthNumber == o.lengthNumber
                        && pathMode == o.pathMode
                        && Double.compare(pathToleranceMm, o.pathToleranceMm) == 0
                        && retractToOldZ == o.retractToOldZ
                        && mist == o.mist
                        && flood == o.flood
                        && overrides == o.overrides
                        && g92 == o.g92;
    }

    @Override
    public int hashCode() {
        return Double.hashCode(feedMmPerMin) * 31 * 31 + motionTenths * 31 + toolInSpindle;
    }
}
