/**
 * RS274/NGC text to canonical commands. Modal state lives only here; tool lengths and diameters are asked for through
 * {@link foilproof.language.ToolTable}, probed surfaces through {@link foilproof.language.ProbeSurface}.
 *
 * <p>The language is that of T. Kramer, F. Proctor, E. Messina, "The NIST RS274/NGC Interpreter - Version 3", NISTIR
 * 6556, 17 August 2000: grammar and expressions (section 3.3), parameters (3.2), modal groups (3.4), codes (3.5, 3.6),
 * order of execution (table 8), canonical commands (section 4), cutter radius compensation (appendix B). A line is read
 * whole, all expressions evaluated, before anything of it runs. The first error ends the run of a program; nothing is
 * skipped silently.
 *
 * <p><b>Strict</b> is that language and nothing else: lines of 256 characters, line numbers of five digits, G28 and G30
 * that move all axes home, a program end that must be there.
 *
 * <p><b>Common</b> adds what desktop controllers commonly accept: {@code ;} comments to the line's end, any line number,
 * lines up to the input limits, {@code G90.1} and {@code G91.1} arc centres, {@code G64 P}, {@code G73}, full circles and
 * helices that repeat no X or Y, arcs whose radii differ by up to 0.005 mm or 0.1 %, {@code G10 L20}, {@code G38.3} to
 * {@code G38.5}, {@code G43.1 Z}, G28 and G30 that move only the axes that the block names, {@code G0} or {@code G1} alone
 * on a line (it sets the motion mode), and a missing program end (a note, not an error).
 *
 * <p><b>Points that the report leaves open</b>, and how they are decided here:
 *
 * <ul>
 *   <li>ROUND takes exact halves away from zero; MOD is never negative; division by zero, MOD by zero, SQRT, LN, ASIN and
 *       ACOS outside their domains, and results that are no finite number are errors.
 *   <li>A move at feed with no F or F0 runs with no known speed and is noted ({@code FEED_UNSET}).
 *   <li>A change of units moves no origin: the coordinate parameters 5061 to 5383 are converted. F on the line of G20 or
 *       G21 means the units of that line. On later lines the strict language keeps the F number, the common one the speed
 *       ({@code InterpreterSetup.feedNumberKept} says otherwise). Kept numbers of a canned cycle keep their digits. The
 *       change is noted.
 *   <li>The start: G80 (no motion), G17, G90, G94, G40, G49, G98, M5, system 1, path mode not known; whatever the first
 *       moves rely on without having said it is noted.
 *   <li>Parameters are 1 to 5399. One that was never set counts 0 and is noted when read.
 *   <li>A parameter of an origin that a program sets itself counts from the next G54 to G59.3 or G92.3 on.
 *   <li>G83 comes back to 0.254 mm above the hole's last bottom (from memory of the reference program; the setup can
 *       change it), G73 lifts by as much.
 *   <li>A probing move that does not trip is an error in the strict language and a note in the common one
 *       ({@code InterpreterSetup.missedProbeIsError}). Both take the move to its end. G38.4 and G38.5, away from a
 *       surface, trip at once where the tool stands at its last trip.
 *   <li>With radius compensation a rapid move round an outside corner is an error: the way round is an arc at feed. A
 *       corner turned inward by up to 0.01 rad counts as straight on.
 *   <li>M6 without any T keeps the tool. H and D that name a tool of unknown size run as 0 and are noted.
 *   <li>Rotary words are in the language; other than 0 they are an error, because the bench has no rotary axis.
 * </ul>
 *
 * <p>Positions: a canonical motion's machine position is where the controller drives its axes, tool length offset
 * included; the tip is below it by the real length of the tool. Ends that hang on unknown machine positions carry a flag
 * for each axis until an absolute word in work coordinates places the axis anew.
 */
@NullMarked
package foilproof.language;

import org.jspecify.annotations.NullMarked;
