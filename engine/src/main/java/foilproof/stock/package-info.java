/**
 * What is left of the blank: tool runs swept into envelopes, envelopes composed into sides and a board under any
 * conditions, the same at any moment, and who cut where.
 *
 * <p><b>Frames.</b> X and Y in the blank's frame of the side as it lies, lower-left corner (0, 0), mm. An envelope's Z
 * is its run's own (the tip's height as programmed, lengths corrected); a composed side's Z has its 0 at the nominal
 * foil top, down negative.
 *
 * <p><b>Envelope.</b> For tool run k, E_k(x, y) is the least, over all places of the tip on the path, of tip height plus
 * rise of the profile at the distance ({@link foilproof.stock.ToolProfile}). The profile is convex and the path is made
 * of points, straight lines and arcs with Z linear along them, so the least is found in closed form, never by stamping
 * ({@code PieceShape}; helices under cones by halving). It is kept up to a headroom above the foil: a height at the cap
 * means "not reached".
 *
 * <p><b>Sweep.</b> The path is cut into pieces, the pieces sorted into tiles of 64 x 64 cells; tiles are swept one by
 * one on any number of threads, each from its own list: 16 x 16 blocks, lowest pieces first, least squared distance for
 * all pieces of one height, one root a cell ({@code TileSweep}, {@code BlockKernel}). Nothing depends on the order in
 * which tiles are done, so the bytes are the same for any number of threads.
 *
 * <p><b>Composition.</b> Height = min(S, E_k + z0_k - e_k) ({@link foilproof.stock.ComposedSide}); z0_k is found in the
 * order milled, from the surface at the touch point just before the run ({@link foilproof.stock.ComposedBoard}).
 *
 * <p><b>Walls.</b> Sloping walls are interpolated between cells; upright walls are found with the exact shape. Whatever
 * a person reads comes from {@link foilproof.stock.Section}, {@link foilproof.stock.Areas} or
 * {@link foilproof.stock.Removed}, not from counting cells.
 *
 * <p><b>Time.</b> A {@link foilproof.stock.Timeline} keeps keyframes that share their tiles;
 * {@link foilproof.stock.Replay} tells what each move removed; {@link foilproof.stock.PointHistory} who cut at a point.
 *
 * <p><b>Known limits.</b> One height a side and run: no undercuts. The blank does not bend. A move is traversed at even
 * speed when a moment within it is asked for. An arc whose start and end radii differ (within what the language
 * accepts) is swept at the mean radius of each quarter turn. Off the blank only what lies within the swept domain is
 * kept. Round noses on ramps, and helices, are taken cell by cell: exact, but some forty times slower than the rest.
 */
@NullMarked
package foilproof.stock;

import org.jspecify.annotations.NullMarked;
