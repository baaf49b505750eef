package foilproof.motion;

import org.jspecify.annotations.Nullable;

/**
 * Something that happens at a moment of the job and moves no axis.
 *
 * @param kind what happens
 * @param timeS when it begins, seconds since the job's start
 * @param durationS how long it holds the machine, seconds; 0 where it takes no time
 * @param program index of the program entry in {@link MotionPlan#programs()}
 * @param line physical line in that program, from 1; 0 at a program's start or end without a line of its own
 * @param run index of the tool run in force after the event; -1 before the first
 * @param beforeSegment index of the first segment that runs after the event
 * @param xMm tip position, blank's frame of that side
 * @param yMm tip position, blank's frame of that side
 * @param zMm tip height in the tool run's own zero
 * @param value the number that belongs to the kind: spindle rpm, tool number, dwell seconds, probed Z in mm; NaN
 *     where the kind has none
 * @param text words that belong to the kind (tool name, message), or null
 */
public record MotionEvent(
        Kind kind,
        double timeS,
        double durationS,
        int program,
        int line,
        int run,
        int beforeSegment,
        double xMm,
        double yMm,
        double zMm,
        double value,
        @Nullable String text) {
    MotionEvent at(double momentS) {
        return new MotionEvent(kind, momentS, durationS, program, line, run, beforeSegment, xMm, yMm, zMm, value, text);
    }

    /** The kinds of event. */
    public enum Kind {
        /** A program file begins. Text: its name. */
        PROGRAM_BEGIN,
        /** A program file ends (M2, M30, {@code %}, end of text, or an error that stopped it). */
        PROGRAM_END,
        /** The cutter is touched off. Text: the tool's name. */
        TOUCH_OFF,
        /** A cutter is put into the collet. Value: tool number. Text: the tool's name. */
        TOOL_CHANGE,
        /**
         * M6 does nothing ({@code on_tool_change = "ignored"}) and the program does not stop either: the old cutter may
         * still be in, though the run is planned with the one that is meant. Value: tool number.
         */
        TOOL_CHANGE_IGNORED,
        /** T was commanded. Value: tool number. */
        TOOL_SELECT,
        /** M0 or M60: the machine waits for a person. */
        PROGRAM_STOP,
        /** M1: the machine waits where the optional stop is switched on. */
        OPTIONAL_STOP,
        /** G4 or a canned cycle's P. Value: seconds. */
        DWELL,
        /** M3. Value: rpm. */
        SPINDLE_CLOCKWISE,
        /** M4. Value: rpm. */
        SPINDLE_COUNTERCLOCKWISE,
        /** M5. */
        SPINDLE_STOP,
        /** S. Value: rpm. */
        SPINDLE_SPEED,
        /** M7, M8 or M9. Text: which. */
        COOLANT,
        /** A probing move tripped. Value: Z in mm where it tripped, in the run's own zero. */
        PROBE_TRIPPED,
        /** A probing move reached its end without a trip. */
        PROBE_MISSED,
        /** A length offset was taken or cancelled (G43, G49). Value: the offset in force, mm. */
        LENGTH_OFFSET,
        /** The origin of a work coordinate system changed (G54-G59.3, G92, G10). */
        ORIGIN,
        /** A message of the program, (MSG, ...). */
        MESSAGE
    }
}
