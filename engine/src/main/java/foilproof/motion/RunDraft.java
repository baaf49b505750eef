package foilproof.motion;

import foilproof.bench.Tool;
import foilproof.bench.ZZero;
import org.jspecify.annotations.Nullable;

/** A tool run while it is being planned. */
final class RunDraft {
    final int index;
    final int side;
    final int firstProgram;
    final int firstSegment;
    final ZZero zZero;
    final double touchXMm;
    final double touchYMm;
    final boolean touchPointNamed;
    final double workZeroXMm;
    final double workZeroYMm;

    @Nullable
    Tool tool;

    @Nullable
    Tool intendedTool;

    int toolNumber;
    int zeroRun;
    int lastProgram;
    int endSegment;
    int startLine;
    double startS;
    double endS;
    TouchOffCause cause = TouchOffCause.PROGRAM_START;
    boolean lengthsMeasured;
    boolean stopInProgram;
    double residualZMm;
    /** What is added to the axis position less the work zero's to get the tip's height above the run's zero, mm. */
    double zShiftMm;
    /** Length offset in force when this run's cutter was touched off, mm; only where it was. */
    double touchOffsetMm;

    RunDraft(
            int index,
            int side,
            int firstProgram,
            int firstSegment,
            ZZero zZero,
            double touchXMm,
            double touchYMm,
            boolean touchPointNamed,
            double workZeroXMm,
            double workZeroYMm) {
        this.index = index;
        this.side = side;
        this.firstProgram = firstProgram;
        this.lastProgram = firstProgram;
        this.firstSegment = firstSegment;
        this.endSegment = firstSegment;
        this.zZero = zZero;
        this.touchXMm = touchXMm;
        this.touchYMm = touchYMm;
        this.touchPointNamed = touchPointNamed;
        this.workZeroXMm = workZeroXMm;
        this.workZeroYMm = workZeroYMm;
        this.zeroRun = index;
    }

    ToolRun build(double cutLengthMm) {
        return new ToolRun(
                index,
                side,
                tool,
                intendedTool,
                toolNumber,
                firstProgram,
                lastProgram,
                firstSegment,
                endSegment,
                startS,
                endS,
                zZero,
                zeroRun,
                touchXMm,
                touchYMm,
                touchPointNamed,
                cause,
                lengthsMeasured,
                residualZMm,
                workZeroXMm,
                workZeroYMm,
                startLine,
                stopInProgram,
                cutLengthMm);
    }
}
