/**
 * Canonical commands to timed segments in the blank's frame, cut into tool runs.
 *
 * <p>Steps, in {@link foilproof.motion.MotionPlanner}:
 * <ol>
 *   <li>each program entry is interpreted with the bench's answers (origins, tools, switches), in the order of the job;
 *   <li>canonical commands become segments: X and Y in the blank's frame of the side, Z the tip's height in the zero of
 *       the tool run; arcs outside the XY plane become chords within 0.5 um;
 *   <li>tool changes and touch-offs cut the segments into {@link foilproof.motion.ToolRun tool runs}: what M6 does is the
 *       machine's {@code on_tool_change}; every program file begins a run unless the job says {@code retouch = false};
 *   <li>chains of moves that nothing interrupts are timed with acceleration, corner and arc limits by a look-ahead
 *       ({@code Timing}).
 * </ol>
 *
 * <p>What nobody knows is flagged, not guessed: places in machine coordinates where the job does not say where the blank
 * lies, the cutter's place when a program begins (taken 5 mm above its touch point), feeds and units never set.
 *
 * <p>Known limits: the acceleration is one number along the path, with no jerk limit; a controller that blends by its
 * own rules may be some per cent off, so times are estimates. Waits for a person at M0 are not in the time. A program
 * that goes on with {@code retouch = false} begins with fresh modal state except for its length offset.
 */
@NullMarked
package foilproof.motion;

import org.jspecify.annotations.NullMarked;
